package kerfbook.field.view

import android.widget.LinearLayout
import kerfbook.core.TaskLine
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
        if (view.places > 0u || view.tasks.isNotEmpty()) todo(state, view.tasks)
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

    private fun todo(state: TodayState, tasks: List<TaskLine>) {
        items.below(look.heading(words(R.string.today_tasks)))
        if (tasks.isEmpty() && !state.waits) items.below(look.body(words(R.string.today_no_tasks)), 4)
        tasks.take(state.shown).forEach { items.below(task(it)) }
        if (state.waits) items.below(look.quietly(words(R.string.today_waits)), 4)
        if (tasks.size > state.shown) {
            items.below(look.secondary(R.string.today_more) { send(Event.Pressed(Press.MORE)) }, 16)
        }
    }

    private fun task(task: TaskLine): LinearLayout {
        val card = look.card()
        val by = "${task.at} · ${task.day}"
        card.below(if (task.overdue) look.text(Sizes.QUIET, look.warn, bold = true).apply { text = by } else look.quietly(by))
        card.below(look.text(Sizes.BODY, bold = true).apply { text = task.what }, 4)
        card.below(look.body(task.why), 4)
        task.task?.let { order ->
            card.below(look.secondary(R.string.done) { send(Event.Pressed(Press.TICK_OFF, order)) }, 16)
        }
        task.place?.let { place ->
            card.tappable("$by. ${task.what}. ${task.why}") { send(Event.Pressed(Press.OPEN, place)) }
        }
        task.pile?.let { pile ->
            card.tappable("$by. ${task.what}. ${task.why}") { send(Event.Pressed(Press.OPEN_PILE, pile)) }
        }
        return card
    }
}
