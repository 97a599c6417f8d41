package kerfbook.field.view

import android.view.View
import kerfbook.core.Ground
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NewPlaceState
import kerfbook.field.presenter.Press

class NewPlacePage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<NewPlaceState>(look, send) {
    private val ground = Choice(look, words(R.string.place_ground)) { send(Event.Chosen("ground", it)) }
    private val label = Entry(look, words(R.string.place_name), number = false) { send(Event.Typed("label", it)) }
    private val by = Choice(look, words(R.string.place_by)) { send(Event.Chosen("by", it)) }
    private val stand = Choice(look, words(R.string.place_by_trees)) { send(Event.Chosen("stand", it)) }
    private val about = look.quietly(words(R.string.sides_about))
    private val fields = mapOf(
        "length" to (if (us) R.string.length_ft else R.string.length_m),
        "width" to (if (us) R.string.width_ft else R.string.width_m),
        "ab" to R.string.side_ab,
        "bc" to R.string.side_bc,
        "cd" to R.string.side_cd,
        "da" to R.string.side_da,
        "ac" to R.string.side_ac,
        "bd" to R.string.side_bd,
        "first_row" to R.string.first_row,
        "rows" to R.string.rows,
        "row_trees" to R.string.row_trees,
        "spacing" to (if (us) R.string.spacing_ft else R.string.spacing_m),
        "row_spacing" to (if (us) R.string.row_spacing_ft else R.string.row_spacing_m),
        "area" to (if (us) R.string.area_ft2 else R.string.area_m2),
        "trees" to R.string.trees,
        "radius" to (if (us) R.string.radius_ft else R.string.radius_m),
        "gap" to (if (us) R.string.gap_in else R.string.gap_cm),
        "count" to R.string.pots,
        "volume" to (if (us) R.string.volume_gal else R.string.volume_l),
        "across" to (if (us) R.string.across_in else R.string.across_cm),
        "missing" to R.string.missing_trees,
    ).mapValues { (field, name) ->
        Entry(look, words(name), number = field != "missing") { send(Event.Typed(field, it)) }
    }
    override val action: View = look.primary(R.string.save) { send(Event.Pressed(Press.SAVE)) }

    init {
        content.below(trouble)
        content.below(label.view)
        content.below(ground.view, 16)
        content.below(by.view, 16)
        content.below(stand.view, 16)
        content.below(about)
        fields.values.forEach { content.below(it.view, 16) }
    }

    override fun show(state: NewPlaceState) {
        tell(state.wrong[""].orEmpty())
        label.show(state.draft["label"].orEmpty(), state.wrong["label"].orEmpty())
        ground.show(GROUNDS.map { (ground, name) -> Choice.Option(ground.name, words(name)) }, state.ground.name)
        by.view.shown(state.ground != Ground.RINGS && state.ground != Ground.CONTAINER)
        by.show(
            listOf(
                Choice.Option("taped", words(R.string.by_tape)),
                Choice.Option("sides", words(R.string.by_sides)),
                Choice.Option("area", words(R.string.by_area)),
                Choice.Option("walk", words(R.string.by_walk)),
            ),
            state.by,
        )
        stand.view.shown(state.ground == Ground.RINGS)
        stand.show(
            listOf(Choice.Option("rings", words(R.string.by_one_size)), Choice.Option("rows", words(R.string.by_rows))),
            state.by,
        )
        about.shown(state.by == "sides")
        fields.forEach { (field, entry) ->
            entry.view.shown(field in state.fields)
            entry.show(state.draft[field].orEmpty(), state.wrong[field].orEmpty())
        }
        action.isEnabled = !state.busy
    }

    private companion object {
        val GROUNDS = listOf(
            Ground.BED to R.string.ground_bed,
            Ground.ROW to R.string.ground_row,
            Ground.RINGS to R.string.ground_rings,
            Ground.PATH to R.string.ground_path,
            Ground.YARD to R.string.ground_yard,
            Ground.CONTAINER to R.string.ground_container,
        )
    }
}
