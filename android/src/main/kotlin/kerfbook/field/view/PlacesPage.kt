package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.PlaceState
import kerfbook.field.presenter.PlacesState
import kerfbook.field.presenter.Press

class PlacesPage(look: Look, send: (Event) -> Unit) : Page<PlacesState>(look, send) {
    private val show = Choice(look, words(R.string.places_show)) { send(Event.Chosen("show", it)) }
    private val list = look.column()
    override val action: View = look.primary(R.string.new_place) { send(Event.Pressed(Press.NEW_PLACE)) }

    init {
        content.below(trouble)
        content.below(show.view)
        content.below(list, 16)
        content.below(look.secondary(R.string.piles) { send(Event.Pressed(Press.PILES)) }, 24)
        content.below(look.secondary(R.string.trials) { send(Event.Pressed(Press.TRIALS)) })
    }

    override fun show(state: PlacesState) {
        tell(state.trouble)
        show.show(
            listOf(Choice.Option("", words(R.string.places_list)), Choice.Option("map", words(R.string.places_map))),
            if (state.onMap) "map" else "",
        )
        if (state.onMap) return onMap(state)
        val places = state.places ?: return
        list.removeAllViews()
        show.view.shown(places.isNotEmpty())
        if (places.isEmpty()) list.below(look.body(words(R.string.places_none)))
        for (place in places) {
            val card = look.card()
            card.below(look.heading(place.label))
            val about = if (place.closed) "${place.about} · ${words(R.string.place_closed)}" else place.about
            card.below(look.quietly(about), 4)
            card.tappable("${place.label}, $about") { send(Event.Pressed(Press.OPEN, place.id)) }
            list.below(card)
        }
    }

    private fun onMap(state: PlacesState) {
        list.removeAllViews()
        val map = state.map ?: return
        map.drawing?.let { list.below(look.card().apply { below(Drawing(look).apply { show(it) }) }) }
        map.lines.forEach { list.below(look.body(it)) }
        map.said.forEach { list.below(look.quietly(it)) }
    }
}

class PlacePage(look: Look, send: (Event) -> Unit) : Page<PlaceState>(look, send) {
    private val about = look.quietly()
    private val happened = look.column()

    init {
        content.below(about)
        content.below(trouble)
        val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
        acts.addView(look.primary(R.string.put_down) { send(Event.Pressed(Press.PUT_DOWN)) })
        acts.addView(look.secondary(R.string.look) { send(Event.Pressed(Press.LOOK)) })
        acts.addView(look.secondary(R.string.new_crop) { send(Event.Pressed(Press.NEW_CROP)) })
        content.below(acts, 16)
        content.below(look.heading(words(R.string.place_happened)), 24)
        content.below(happened)
    }

    override fun show(state: PlaceState) {
        tell(state.trouble)
        val page = state.page ?: return
        about.text = "${page.line.label} · ${page.line.about}"
        happened.removeAllViews()
        page.happened.forEach { happened.below(look.body(it)) }
    }
}
