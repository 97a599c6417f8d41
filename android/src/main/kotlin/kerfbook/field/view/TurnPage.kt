package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.TurnState

class TurnPage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<TurnState>(look, send) {
    private val heed = look.column()
    private val water =
        Entry(look, words(if (us) R.string.water_gal else R.string.water_l), number = true) { send(Event.Typed("water", it)) }
    private val save = look.primary(R.string.turn_save) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(water.view)
        content.below(heed, 24)
    }

    override fun show(state: TurnState) {
        tell(state.wrong[""].orEmpty())
        heed.removeAllViews()
        heed.cautions(look, state.cautions)
        water.show(state.draft["water"].orEmpty(), state.wrong["water"].orEmpty())
        look.ready(save, !state.busy)
    }
}
