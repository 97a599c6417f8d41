package kerfbook.field.view

import android.view.View
import kerfbook.core.Strip
import kerfbook.core.Yellow
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.LookState
import kerfbook.field.presenter.Press

class LookPage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<LookState>(look, send) {
    private val place = Choice(look, words(R.string.look_where)) { send(Event.Chosen("place", it)) }
    private val newPlace = look.secondary(R.string.new_place) { send(Event.Pressed(Press.NEW_PLACE)) }
    private val saved = look.column()
    private val yellow = Choice(look, words(R.string.look_yellow)) { send(Event.Chosen("yellow", it)) }
    private val depth = number("depth", if (us) R.string.look_depth_in else R.string.look_depth_cm)
    private val rain = number("rain", if (us) R.string.look_rain_in else R.string.look_rain_mm)
    private val strip = number("strip", R.string.look_strip)
    private val states = Choice(look, words(R.string.look_states)) { send(Event.Chosen("states", it)) }
    private val save = look.primary(R.string.save) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(saved)
        content.below(place.view, 16)
        content.below(newPlace)
        content.below(yellow.view, 24)
        content.below(depth.view, 24)
        content.below(rain.view, 16)
        content.below(strip.view, 16)
        content.below(states.view, 16)
    }

    private fun number(field: String, name: Int) =
        Entry(look, words(name), number = true) { send(Event.Typed(field, it)) }

    override fun show(state: LookState) {
        val draft = state.draft
        val wrong = state.wrong
        tell(wrong[""].orEmpty())
        saved.removeAllViews()
        if (state.saved.isNotEmpty()) {
            val card = look.card(look.chosen, look.accent)
            card.below(look.text(Sizes.HEADING, look.onChosen, bold = true).apply { setText(R.string.in_the_book) })
            state.saved.forEach { one -> card.below(look.text(Sizes.BODY, look.onChosen).apply { text = one.text }) }
            saved.below(card)
        }
        val places = state.places.orEmpty()
        newPlace.shown(state.places != null && places.isEmpty())
        place.show(
            places.map { Choice.Option(it.id, it.label, "${it.label}, ${it.about}") },
            draft["place"].orEmpty(),
            wrong["place"].orEmpty(),
        )
        yellow.show(
            listOf(
                Choice.Option(Yellow.GREEN.name, words(R.string.yellow_none)),
                Choice.Option(Yellow.SOME.name, words(R.string.yellow_some)),
                Choice.Option(Yellow.MUCH.name, words(R.string.yellow_much)),
                Choice.Option("", words(R.string.not_looked)),
            ),
            draft["yellow"].orEmpty(),
        )
        depth.show(draft["depth"].orEmpty(), wrong["depth"].orEmpty())
        rain.show(draft["rain"].orEmpty(), wrong["rain"].orEmpty())
        strip.show(draft["strip"].orEmpty(), wrong["strip"].orEmpty())
        states.view.shown(draft["strip"].orEmpty().isNotEmpty())
        states.show(
            listOf(
                Choice.Option(Strip.NITRATE.name, words(R.string.strip_nitrate)),
                Choice.Option(Strip.NITRATE_NITROGEN.name, words(R.string.strip_nitrate_n)),
            ),
            draft["states"] ?: Strip.NITRATE.name,
        )
        save.isEnabled = !state.busy
    }
}
