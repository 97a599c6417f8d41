package kerfbook.field.presenter

import kerfbook.core.CropGiven
import kerfbook.core.Hunger

data class NewCropState(
    val draft: Map<String, String>,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** A crop that starts today. */
class NewCropPresenter(private val place: String) : Presenter<NewCropState> {
    override fun start(draft: Map<String, String>) = Step(NewCropState(draft))

    override fun next(state: NewCropState, event: Event): Step<NewCropState> = when (event) {
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.Pressed ->
            if (event.what == Press.SAVE && !state.busy) {
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.StartCrop(crop(state.draft))))
            } else {
                Step(state)
            }
        is Event.Saved -> Step(state.copy(busy = false), listOf(Effect.Confirm, Effect.Close()))
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: NewCropState) = state.draft

    private fun change(state: NewCropState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun crop(draft: Map<String, String>) = CropGiven(
        place = place,
        name = draft.at("name"),
        hunger = Hunger.values().firstOrNull { it.name == draft.at("hunger") } ?: Hunger.UNKNOWN,
        weeks = draft.at("weeks"),
    )
}
