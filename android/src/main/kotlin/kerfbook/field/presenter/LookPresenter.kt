package kerfbook.field.presenter

import kerfbook.core.LookGiven
import kerfbook.core.PlaceLine
import kerfbook.core.SavedView
import kerfbook.core.Strip
import kerfbook.core.Yellow

data class LookState(
    val draft: Map<String, String>,
    val places: List<PlaceLine>? = null,
    val saved: List<SavedView> = emptyList(),
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** Look: what was seen on a place. */
class LookPresenter(private val place: String) : Presenter<LookState> {
    override fun start(draft: Map<String, String>): Step<LookState> {
        val known = if (place.isEmpty() || "place" in draft) draft else draft + ("place" to place)
        return Step(LookState(known), Effect.Ask(Call.Places))
    }

    override fun next(state: LookState, event: Event): Step<LookState> = when (event) {
        is Event.PlacesCame -> Step(state.copy(places = event.places.filter { !it.closed }))
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.Saved -> Step(
            state.copy(saved = event.saved, busy = false, draft = state.draft.filterKeys { it == "place" }),
            Effect.Confirm,
        )
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> when {
            event.what == Press.NEW_PLACE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PLACE)))
            event.what == Press.SAVE && !state.busy ->
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.Look(given(state.draft))))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: LookState) = state.draft

    private fun change(state: LookState, field: String, value: String) = state.copy(
        draft = state.draft.with(field, value),
        wrong = state.wrong - field - "",
        saved = emptyList(),
    )

    private fun given(draft: Map<String, String>) = LookGiven(
        place = draft.at("place"),
        yellow = Yellow.values().firstOrNull { it.name == draft.at("yellow") },
        strip = draft.at("strip"),
        stripStates = Strip.values().firstOrNull { it.name == draft.at("states") } ?: Strip.NITRATE,
        depth = draft.at("depth"),
        rain = draft.at("rain"),
    )
}
