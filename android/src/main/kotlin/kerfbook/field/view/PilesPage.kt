package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.PileState
import kerfbook.field.presenter.PilesState
import kerfbook.field.presenter.Press

class PilesPage(look: Look, send: (Event) -> Unit) : Page<PilesState>(look, send) {
    private val list = look.column()
    override val action: View = look.primary(R.string.new_pile) { send(Event.Pressed(Press.NEW_PILE)) }

    init {
        content.below(trouble)
        content.below(list)
    }

    override fun show(state: PilesState) {
        tell(state.trouble)
        val piles = state.piles ?: return
        list.removeAllViews()
        if (piles.isEmpty()) list.below(look.body(words(R.string.piles_none)))
        for (pile in piles) {
            val card = look.card()
            card.below(look.heading(pile.label))
            card.below(look.quietly(pile.about), 4)
            card.tappable("${pile.label}, ${pile.about}") { send(Event.Pressed(Press.OPEN, pile.id)) }
            list.below(card)
        }
    }
}

class PilePage(look: Look, send: (Event) -> Unit) : Page<PileState>(look, send) {
    private val about = look.quietly()
    private val heed = look.column()
    private val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
    private val chart = Drawing(look)
    private val drawn = look.card()
    private val said = look.column()

    init {
        content.below(about)
        content.below(trouble)
        content.below(heed)
        acts.addView(look.primary(R.string.read_heat) { send(Event.Pressed(Press.READ_HEAT)) })
        acts.addView(look.secondary(R.string.turn_pile) { send(Event.Pressed(Press.TURN)) })
        acts.addView(look.secondary(R.string.finish_pile) { send(Event.Pressed(Press.FINISH)) })
        content.below(acts, 16)
        drawn.below(chart)
        content.below(drawn, 24)
        content.below(said, 24)
        acts.shown(false)
        drawn.shown(false)
    }

    override fun show(state: PileState) {
        tell(state.trouble)
        val page = state.page ?: return
        about.text = "${page.line.label} · ${page.line.about}"
        heed.removeAllViews()
        acts.shown(page.line.stands)
        if (page.line.stands) heed.cautions(look, page.cautions)
        drawn.shown(page.chart != null)
        page.chart?.let(chart::show)
        said.removeAllViews()
        said.below(look.heading(words(R.string.pile_state)))
        page.said.forEach { said.below(look.body(it)) }
    }
}
