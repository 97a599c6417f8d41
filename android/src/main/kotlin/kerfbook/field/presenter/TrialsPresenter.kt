package kerfbook.field.presenter

import kerfbook.core.GivenLine
import kerfbook.core.Leaves
import kerfbook.core.TrialLine
import kerfbook.core.TrialPage

data class TrialsState(val trials: List<TrialLine>? = null, val trouble: String = "")

/** Trials: the list. */
object TrialsPresenter : Presenter<TrialsState> {
    override fun start(draft: Map<String, String>) = Step(TrialsState(), Effect.Ask(Call.Trials))

    override fun next(state: TrialsState, event: Event): Step<TrialsState> = when (event) {
        is Event.TrialsCame -> Step(TrialsState(event.trials))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.NEW_TRIAL -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_TRIAL)))
            Press.OPEN -> Step(state, Effect.Open(Screen(Screen.Kind.TRIAL, event.about)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: TrialsState) = emptyMap<String, String>()
}

data class TrialState(
    val page: TrialPage? = null,
    /** What a person is about to do that cannot be undone: asked once more. */
    val asking: Press? = null,
    /** What plots got, once somebody chose to see it. */
    val layout: List<GivenLine> = emptyList(),
    val trouble: String = "",
)

/** One trial: how far it is, what goes where, its end, and what it shows then. */
class TrialPresenter(private val trial: String) : Presenter<TrialState> {
    override fun start(draft: Map<String, String>) = Step(TrialState(), Effect.Ask(again()))

    override fun next(state: TrialState, event: Event): Step<TrialState> = when (event) {
        is Event.TrialCame -> Step(state.copy(page = event.page, trouble = ""))
        is Event.LayoutCame -> Step(state.copy(layout = event.layout, asking = null))
        is Event.Saved -> Step(state.copy(asking = null), listOf(Effect.Confirm, Effect.Ask(again())))
        is Event.Failed -> Step(state.copy(trouble = event.reason, asking = null))
        is Event.Pressed -> when (event.what) {
            Press.SCORE -> Step(state, Effect.Open(Screen(Screen.Kind.SCORE, trial)))
            Press.LAYOUT -> asked(state, Press.LAYOUT, Call.Layout(trial))
            Press.CLOSE_TRIAL -> asked(state, Press.CLOSE_TRIAL, Call.CloseTrial(trial))
            Press.OTHER -> Step(state.copy(asking = null))
            else -> Step(state)
        }
        else -> Step(state)
    }

    private fun asked(state: TrialState, what: Press, call: Call): Step<TrialState> =
        if (state.asking == what) Step(state, Effect.Ask(call)) else Step(state.copy(asking = what))

    private fun again() = Call.Trial(trial, Leaves.OLD)

    override fun draft(state: TrialState) = emptyMap<String, String>()
}
