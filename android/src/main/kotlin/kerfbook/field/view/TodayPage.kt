package kerfbook.field.view

import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.TodayState

class TodayPage(look: Look, send: (Event) -> Unit) : Page<TodayState>(look, send) {
    private val day = look.quietly()
    private val items = look.column()

    init {
        content.below(day)
        content.below(trouble)
        content.below(items, 16)
    }

    override fun show(state: TodayState) {
        tell(state.trouble)
        val view = state.view ?: return
        day.text = "${view.holding} · ${view.day}"
        items.removeAllViews()
        if (view.places == 0u) {
            begin(R.string.today_first_place, R.string.new_place, Press.NEW_PLACE)
        }
        if (view.batches == 0u) {
            begin(R.string.today_first_load, R.string.new_load, Press.NEW_LOAD)
        }
        if (view.places > 0u && view.batches > 0u) {
            items.below(look.primary(R.string.put_down) { send(Event.Pressed(Press.PUT_DOWN)) }, 16)
            items.below(look.secondary(R.string.new_load) { send(Event.Pressed(Press.NEW_LOAD)) })
        }
    }

    private fun begin(why: Int, what: Int, press: Press) {
        val card = look.card()
        card.below(look.body(words(why)))
        card.below(look.primary(what) { send(Event.Pressed(press)) }, 16)
        items.below(card, 16)
    }
}
