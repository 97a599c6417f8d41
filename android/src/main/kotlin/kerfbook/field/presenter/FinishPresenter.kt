package kerfbook.field.presenter

import kerfbook.core.CautionView
import kerfbook.core.FinishGiven
import kerfbook.core.FinishedView

data class FinishState(
    val draft: Map<String, String>,
    val cautions: List<CautionView> = emptyList(),
    val done: FinishedView? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** Taking a pile down: it becomes a batch. */
class FinishPresenter(private val pile: String) : Presenter<FinishState> {
    override fun start(draft: Map<String, String>) = Step(FinishState(draft), Effect.Ask(Call.FinishingCautions(pile)))

    override fun next(state: FinishState, event: Event): Step<FinishState> = when (event) {
        is Event.CautionsCame -> Step(state.copy(cautions = event.cautions))
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.FinishedCame -> Step(state.copy(busy = false, done = event.done), Effect.Confirm)
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> when {
            event.what != Press.SAVE || state.busy -> Step(state)
            // What became of it has been read.
            state.done != null -> Step(state, Effect.Close())
            else -> Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.FinishPile(given(state.draft))))
        }
        else -> Step(state)
    }

    override fun draft(state: FinishState) = state.draft

    private fun change(state: FinishState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun given(draft: Map<String, String>) = FinishGiven(
        pile = pile,
        name = draft.at("name"),
        amount = draft.at("amount"),
        measure = measure(draft),
        moisture = draft.at("moisture"),
        carbonNitrogen = draft.at("carbon_nitrogen"),
    )
}
