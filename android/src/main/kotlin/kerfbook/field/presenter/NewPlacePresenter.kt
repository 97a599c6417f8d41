package kerfbook.field.presenter

import kerfbook.core.Ground
import kerfbook.core.NewPlace
import kerfbook.core.Size

data class NewPlaceState(
    val draft: Map<String, String>,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    val ground: Ground get() = Ground.values().firstOrNull { it.name == draft.at("ground") } ?: Ground.BED

    /** How its size is given. */
    val by: String get() = when (ground) {
        Ground.RINGS -> draft["stand"] ?: "rings"
        Ground.CONTAINER -> "containers"
        else -> draft["by"] ?: "taped"
    }

    /** The fields that this way of giving a size has. */
    val fields: List<String> get() = when (by) {
        "rings" -> listOf("trees", "radius", "gap")
        "rows" -> listOf("first_row", "rows", "row_trees", "spacing", "row_spacing", "radius", "gap", "missing")
        "sides" -> listOf("ab", "bc", "cd", "da", "ac", "bd")
        "containers" -> listOf("count", "volume", "across")
        "area" -> listOf("area")
        else -> listOf("length", "width")
    }
}

/** A new place by tape or typing, or the way to walking round it. */
object NewPlacePresenter : Presenter<NewPlaceState> {
    override fun start(draft: Map<String, String>): Step<NewPlaceState> {
        val state = NewPlaceState(draft)
        // It was walked, and is in the book.
        return draft["walked"]?.let { Step(state, Effect.Close(mapOf("place" to it))) } ?: Step(state)
    }

    override fun next(state: NewPlaceState, event: Event): Step<NewPlaceState> = when (event) {
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen ->
            if (event.field == "by" && event.value == "walk") {
                val about = "${state.ground.name}\n${state.draft.at("label")}"
                Step(state, Effect.Open(Screen(Screen.Kind.WALK, about)))
            } else {
                Step(change(state, event.field, event.value))
            }
        is Event.Pressed ->
            if (event.what == Press.SAVE && !state.busy) {
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.Outline(place(state))))
            } else {
                Step(state)
            }
        is Event.Saved -> Step(
            state.copy(busy = false),
            listOf(Effect.Confirm, Effect.Close(mapOf("place" to event.saved.first().entry))),
        )
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: NewPlaceState) = state.draft

    private fun change(state: NewPlaceState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun place(state: NewPlaceState): NewPlace {
        val typed = state.draft
        val size = when (state.by) {
            "rows" -> Size.Rows(
                firstRow = typed["first_row"] ?: "1",
                rows = typed.at("rows"),
                trees = typed.at("row_trees"),
                spacing = typed.at("spacing"),
                rowSpacing = typed.at("row_spacing"),
                radius = typed.at("radius"),
                gap = typed.at("gap"),
                missing = typed.at("missing"),
            )
            "sides" -> Size.Sides(
                ab = typed.at("ab"),
                bc = typed.at("bc"),
                cd = typed.at("cd"),
                da = typed.at("da"),
                ac = typed.at("ac"),
                bd = typed.at("bd"),
            )
            "rings" -> Size.Rings(typed.at("trees"), typed.at("radius"), typed.at("gap"))
            "containers" -> Size.Containers(typed.at("count"), typed.at("volume"), typed.at("across"))
            "area" -> Size.Area(typed.at("area"))
            else -> Size.Taped(typed.at("length"), typed.at("width"))
        }
        return NewPlace(typed.at("label"), state.ground, size)
    }
}
