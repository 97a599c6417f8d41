package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NewTrialPresenter
import kerfbook.field.presenter.NewTrialState
import kerfbook.field.presenter.Press

class NewTrialPage(look: Look, send: (Event) -> Unit) : Page<NewTrialState>(look, send) {
    private val name = Entry(look, words(R.string.trial_name), number = false) { send(Event.Typed("name", it)) }
    private val treatments =
        listOf(R.string.trial_a, R.string.trial_b, R.string.trial_c, R.string.trial_d)
            .take(NewTrialPresenter.TREATMENTS)
            .mapIndexed { at, label ->
                Entry(look, words(label), number = false) { send(Event.Typed("treatment-$at", it)) }
            }
    private val blocks = Choice(look, words(R.string.trial_blocks)) { send(Event.Chosen("blocks", it)) }
    override val action: View = look.primary(R.string.trial_draw) { send(Event.Pressed(Press.SAVE)) }

    init {
        content.below(trouble)
        content.below(name.view)
        content.below(look.heading(words(R.string.trial_compared)), 24)
        content.below(look.quietly(words(R.string.trial_first)), 4)
        treatments.forEach { content.below(it.view) }
        content.below(look.quietly(words(R.string.trial_equal)))
        content.below(blocks.view, 24)
        content.below(look.quietly(words(R.string.trial_blocks_about)))
    }

    override fun show(state: NewTrialState) {
        tell(state.wrong[""].orEmpty())
        name.show(state.draft["name"].orEmpty(), state.wrong["name"].orEmpty())
        treatments.forEachIndexed { at, entry ->
            val field = "treatment-$at"
            entry.show(state.draft[field].orEmpty(), state.wrong[field].orEmpty())
        }
        blocks.show(BLOCKS.map { Choice.Option("$it", "$it") }, state.draft["blocks"].orEmpty(), state.wrong["blocks"].orEmpty())
        action.isEnabled = !state.busy
    }

    private companion object {
        val BLOCKS = 1..8
    }
}
