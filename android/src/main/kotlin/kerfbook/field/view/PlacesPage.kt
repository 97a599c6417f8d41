package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.PlaceState
import kerfbook.field.presenter.PlacesState
import kerfbook.field.presenter.Press

class PlacesPage(look: Look, send: (Event) -> Unit) : Page<PlacesState>(look, send) {
    private val list = look.column()
    override val action: View = look.primary(R.string.new_place) { send(Event.Pressed(Press.NEW_PLACE)) }

    init {
        content.below(trouble)
        content.below(list)
        content.below(look.secondary(R.string.piles) { send(Event.Pressed(Press.PILES)) }, 24)
        content.below(look.secondary(R.string.trials) { send(Event.Pressed(Press.TRIALS)) })
    }

    override fun show(state: PlacesState) {
        tell(state.trouble)
        val places = state.places ?: return
        list.removeAllViews()
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
