package kerfbook.field.presenter

import kerfbook.core.CautionView

data class TurnState(
    val draft: Map<String, String>,
    val cautions: List<CautionView> = emptyList(),
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** Turning a pile: what to heed comes first. */
class TurnPresenter(private val pile: String) : Presenter<TurnState> {
    override fun start(draft: Map<String, String>) = Step(TurnState(draft), Effect.Ask(Call.TurningCautions))

    override fun next(state: TurnState, event: Event): Step<TurnState> = when (event) {
        is Event.CautionsCame -> Step(state.copy(cautions = event.cautions))
        is Event.Typed ->
            Step(state.copy(draft = state.draft.with(event.field, event.text), wrong = state.wrong - event.field))
        is Event.Saved -> Step(state.copy(busy = false), listOf(Effect.Confirm, Effect.Close()))
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed ->
            if (event.what == Press.SAVE && !state.busy) {
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.TurnPile(pile, state.draft.at("water"))))
            } else {
                Step(state)
            }
        else -> Step(state)
    }

    override fun draft(state: TurnState) = state.draft
}
