package kerfbook.field.presenter

import kerfbook.core.TrialGiven

data class NewTrialState(
    val draft: Map<String, String>,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** A trial in complete blocks, drawn by lot. */
object NewTrialPresenter : Presenter<NewTrialState> {
    /** Things that can be compared here; an empty one does not count. */
    const val TREATMENTS = 4

    override fun start(draft: Map<String, String>) = Step(NewTrialState(draft))

    override fun next(state: NewTrialState, event: Event): Step<NewTrialState> = when (event) {
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.Pressed ->
            if (event.what == Press.SAVE && !state.busy) {
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.LayOut(given(state.draft))))
            } else {
                Step(state)
            }
        is Event.Saved -> Step(state.copy(busy = false), listOf(Effect.Confirm, Effect.Close()))
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: NewTrialState) = state.draft

    private fun change(state: NewTrialState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun given(draft: Map<String, String>) = TrialGiven(
        name = draft.at("name"),
        treatments = (0 until TREATMENTS).map { draft.at("treatment-$it") },
        blocks = draft.at("blocks"),
    )
}
