package kerfbook.field.presenter

import kerfbook.core.Leaves
import kerfbook.core.PlotLine
import kerfbook.core.SavedView
import kerfbook.core.TrialPage

data class ScoreState(
    val draft: Map<String, String>,
    val page: TrialPage? = null,
    val saved: SavedView? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    /** What is read on this walk. */
    val what: What get() = What.values().firstOrNull { it.name == draft.at("what") } ?: What.OLD

    private val passed: Set<String> get() = draft.at("passed").split(' ').toSet()

    /** The plot one stands before: the first of the walk that is not read yet. */
    val plot: PlotLine?
        get() = page?.walk.orEmpty().firstOrNull { !it.lost && !read(it) && it.number.toString() !in passed }

    private fun read(plot: PlotLine) = if (what == What.YIELD) plot.weighed else plot.scored != null

    /** What can be read on a walk. */
    enum class What(val leaves: Leaves) {
        OLD(Leaves.OLD),
        MIDDLE(Leaves.MIDDLE),
        YOUNG(Leaves.YOUNG),
        YIELD(Leaves.OLD),
    }
}

/** Scoring plots by number, one after the other: nothing here says what a plot got. */
class ScorePresenter(private val trial: String) : Presenter<ScoreState> {
    override fun start(draft: Map<String, String>): Step<ScoreState> {
        val state = ScoreState(draft)
        return Step(state, Effect.Ask(again(state)))
    }

    override fun next(state: ScoreState, event: Event): Step<ScoreState> = when (event) {
        is Event.TrialCame -> Step(state.copy(page = event.page, busy = false))
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> chosen(state, event)
        is Event.Saved -> {
            val next = state.copy(saved = event.saved.firstOrNull(), draft = walked(state.draft))
            Step(next, listOf(Effect.Confirm, Effect.Ask(again(next))))
        }
        is Event.Changed -> {
            val next = state.copy(saved = null)
            Step(next, listOf(Effect.Confirm, Effect.Ask(again(next))))
        }
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> pressed(state, event.what)
        else -> Step(state)
    }

    override fun draft(state: ScoreState) = state.draft

    private fun chosen(state: ScoreState, event: Event.Chosen): Step<ScoreState> {
        val next = change(state, event.field, event.value)
        if (event.field != "what") return Step(next)
        val other = next.copy(draft = next.draft - "yellow" - "passed")
        return Step(other, Effect.Ask(again(other)))
    }

    private fun pressed(state: ScoreState, what: Press): Step<ScoreState> {
        val plot = state.plot
        return when {
            what == Press.UNDO && state.saved != null -> Step(state, Effect.Ask(Call.Withdraw(state.saved.entry)))
            plot == null || state.busy -> Step(state)
            what == Press.SAVE && state.what == ScoreState.What.YIELD ->
                ask(state, Call.Weigh(trial, plot.number, state.draft.at("picked")))
            what == Press.SAVE -> state.draft.at("yellow").toUIntOrNull()
                ?.let { ask(state, Call.Score(trial, plot.number, state.what.leaves, it)) } ?: Step(state)
            what == Press.SKIP -> {
                val passed = "${state.draft.at("passed")} ${plot.number}".trim()
                Step(state.copy(draft = walked(state.draft) + ("passed" to passed), saved = null))
            }
            what == Press.LOST && state.draft.at("lost").isEmpty() ->
                Step(state.copy(draft = state.draft + ("lost" to "asked")))
            what == Press.LOST -> ask(state, Call.Lose(trial, plot.number, state.draft.at("reason")))
            else -> Step(state)
        }
    }

    private fun ask(state: ScoreState, call: Call) =
        Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(call))

    /** On to the next plot: nothing that was said of the last one stays. */
    private fun walked(draft: Map<String, String>) = draft - "yellow" - "picked" - "lost" - "reason"

    private fun change(state: ScoreState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun again(state: ScoreState) = Call.Trial(trial, state.what.leaves)
}
