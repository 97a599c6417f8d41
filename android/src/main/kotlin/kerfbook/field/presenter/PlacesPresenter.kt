package kerfbook.field.presenter

import kerfbook.core.MapView
import kerfbook.core.PlaceLine
import kerfbook.core.PlacePage

data class PlacesState(
    val places: List<PlaceLine>? = null,
    val map: MapView? = null,
    /** The map is looked at, not the list. */
    val onMap: Boolean = false,
    val trouble: String = "",
)

/** Places: the list, or the map. */
object PlacesPresenter : Presenter<PlacesState> {
    override fun start(draft: Map<String, String>): Step<PlacesState> {
        val onMap = draft.at("show") == "map"
        return Step(PlacesState(onMap = onMap), Effect.Ask(if (onMap) Call.Map else Call.Places))
    }

    override fun next(state: PlacesState, event: Event): Step<PlacesState> = when (event) {
        is Event.PlacesCame -> Step(state.copy(places = event.places, trouble = ""))
        is Event.MapCame -> Step(state.copy(map = event.map, trouble = ""))
        is Event.Chosen -> start(mapOf(event.field to event.value))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.NEW_PLACE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PLACE)))
            Press.PILES -> Step(state, Effect.Open(Screen(Screen.Kind.PILES)))
            Press.TRIALS -> Step(state, Effect.Open(Screen(Screen.Kind.TRIALS)))
            Press.OPEN -> Step(state, Effect.Open(Screen(Screen.Kind.PLACE, event.about)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: PlacesState) = if (state.onMap) mapOf("show" to "map") else emptyMap()
}

data class PlaceState(val page: PlacePage? = null, val trouble: String = "")

/** One place: what happened there, and what can be done next. */
class PlacePresenter(private val place: String) : Presenter<PlaceState> {
    override fun start(draft: Map<String, String>) = Step(PlaceState(), Effect.Ask(Call.Place(place)))

    override fun next(state: PlaceState, event: Event): Step<PlaceState> = when (event) {
        is Event.PlaceCame -> Step(PlaceState(event.page))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.PUT_DOWN -> Step(state, Effect.Open(Screen(Screen.Kind.PUT_DOWN, place)))
            Press.LOOK -> Step(state, Effect.Open(Screen(Screen.Kind.LOOK, place)))
            Press.NEW_CROP -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_CROP, place)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: PlaceState) = emptyMap<String, String>()
}
