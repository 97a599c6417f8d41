package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.ScoreState

class ScorePage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<ScoreState>(look, send) {
    private val saved = look.column()
    private val plot = look.title("")
    private val at = look.quietly()
    private val yellow = Choice(look, words(R.string.score_yellow)) { send(Event.Chosen("yellow", it)) }
    private val picked =
        Entry(look, words(if (us) R.string.score_picked_lb else R.string.score_picked_kg), number = true) {
            send(Event.Typed("picked", it))
        }
    private val skip = look.secondary(R.string.score_skip) { send(Event.Pressed(Press.SKIP)) }
    private val reason = Entry(look, words(R.string.score_reason), number = false) { send(Event.Typed("reason", it)) }
    private val lost = look.secondary(R.string.score_lost) { send(Event.Pressed(Press.LOST)) }
    private val what = Choice(look, words(R.string.score_what)) { send(Event.Chosen("what", it)) }
    private val save = look.primary(R.string.score_next) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(plot)
        content.below(at, 4)
        content.below(yellow.view, 16)
        content.below(picked.view, 16)
        content.below(saved, 24)
        content.below(skip, 16)
        content.below(reason.view, 16)
        content.below(lost)
        content.below(what.view, 24)
    }

    override fun show(state: ScoreState) {
        tell(state.wrong[""].orEmpty())
        what.show(
            listOf(
                Choice.Option(ScoreState.What.OLD.name, words(R.string.leaves_old)),
                Choice.Option(ScoreState.What.MIDDLE.name, words(R.string.leaves_middle)),
                Choice.Option(ScoreState.What.YOUNG.name, words(R.string.leaves_young)),
                Choice.Option(ScoreState.What.YIELD.name, words(R.string.score_yield)),
            ),
            state.what.name,
        )
        saved.removeAllViews()
        state.saved?.let { one ->
            val card = look.card(look.chosen, look.accent)
            card.below(look.text(Sizes.BODY, look.onChosen).apply { text = one.text })
            card.below(look.secondary(R.string.undo) { send(Event.Pressed(Press.UNDO)) }, 16)
            saved.below(card)
        }
        val here = state.plot
        val weighing = state.what == ScoreState.What.YIELD
        plot.text = when {
            state.page == null -> ""
            here == null -> words(R.string.score_done)
            else -> "${words(R.string.plot)} ${here.number}"
        }
        at.text = here?.at.orEmpty()
        listOf(skip, lost).forEach { it.shown(here != null) }
        reason.view.shown(here != null && "lost" in state.draft)
        reason.show(state.draft["reason"].orEmpty(), state.wrong["reason"].orEmpty())
        yellow.view.shown(here != null && !weighing)
        yellow.show(state.page?.steps.orEmpty().map { Choice.Option("$it", "$it") }, state.draft["yellow"].orEmpty(), state.wrong["yellow"].orEmpty())
        picked.view.shown(here != null && weighing)
        picked.show(state.draft["picked"].orEmpty(), state.wrong["picked"].orEmpty())
        val said = if (weighing) state.draft["picked"] else state.draft["yellow"]
        look.ready(save, here != null && !state.busy && !said.isNullOrEmpty())
    }
}
