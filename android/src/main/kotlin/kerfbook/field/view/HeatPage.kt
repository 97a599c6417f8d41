package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.HeatState
import kerfbook.field.presenter.Press

class HeatPage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<HeatState>(look, send) {
    private val pile = look.quietly()
    private val saved = look.column()
    private val zone = Choice(look, words(R.string.heat_zone)) { send(Event.Chosen("zone", it)) }
    private val heat = Entry(look, words(if (us) R.string.heat_f else R.string.heat_c), number = true, below = true) {
        send(Event.Typed("heat", it))
    }
    private val smoke = Choice(look, words(R.string.heat_smoke)) { send(Event.Chosen("smoke", it)) }
    private val smoking = look.text(Sizes.BODY, look.warn, bold = true)
    private val more = look.secondary(R.string.heat_more) { send(Event.Pressed(Press.MORE)) }
    private val depth =
        Entry(look, words(if (us) R.string.heat_depth_in else R.string.heat_depth_cm), number = true) { send(Event.Typed("depth", it)) }
    private val moisture = Entry(look, words(R.string.moisture_pct), number = true) { send(Event.Typed("moisture", it)) }
    private val save = look.primary(R.string.heat_next) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(pile)
        content.below(trouble)
        content.below(saved, 16)
        content.below(zone.view, 16)
        content.below(heat.view, 24)
        content.below(smoke.view, 24)
        content.below(smoking)
        content.below(more, 24)
        content.below(depth.view, 24)
        content.below(moisture.view, 16)
    }

    override fun show(state: HeatState) {
        val (draft, wrong) = state.draft to state.wrong
        tell(wrong[""].orEmpty())
        val page = state.page
        pile.text = page?.line?.label.orEmpty()
        saved.removeAllViews()
        state.read?.let { read ->
            val card = look.card(look.chosen, look.accent)
            read.saved.forEach { card.below(look.text(Sizes.BODY, look.onChosen).apply { text = it.text }) }
            card.below(look.secondary(R.string.undo) { send(Event.Pressed(Press.UNDO)) }, 16)
            saved.below(card)
            saved.cautions(look, read.cautions)
        }
        zone.show(page?.zones.orEmpty().map { Choice.Option(it.name, it.told) }, state.zone?.name.orEmpty(), wrong["zone"].orEmpty())
        heat.show(draft["heat"].orEmpty(), wrong["heat"].orEmpty())
        val smokes = draft["smoke"] == "yes"
        smoke.show(
            listOf(Choice.Option("", words(R.string.no)), Choice.Option("yes", words(R.string.yes))),
            if (smokes) "yes" else "",
        )
        smoking.text = words(R.string.heat_smoke_first)
        smoking.shown(smokes && wrong["heat"] != smoking.text)
        val wide = draft["more"] != null
        more.shown(!wide)
        depth.view.shown(wide)
        moisture.view.shown(wide)
        depth.show(draft["depth"].orEmpty(), wrong["depth"].orEmpty())
        moisture.show(draft["moisture"].orEmpty(), wrong["moisture"].orEmpty())
        look.ready(save, state.zone != null && !state.busy)
    }
}
