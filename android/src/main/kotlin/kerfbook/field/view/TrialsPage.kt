package kerfbook.field.view

import android.view.View
import android.widget.LinearLayout
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.TrialState
import kerfbook.field.presenter.TrialsState

class TrialsPage(look: Look, send: (Event) -> Unit) : Page<TrialsState>(look, send) {
    private val list = look.column()
    override val action: View = look.primary(R.string.new_trial) { send(Event.Pressed(Press.NEW_TRIAL)) }

    init {
        content.below(trouble)
        content.below(list)
    }

    override fun show(state: TrialsState) {
        tell(state.trouble)
        val trials = state.trials ?: return
        list.removeAllViews()
        if (trials.isEmpty()) list.below(look.body(words(R.string.trials_none)))
        for (trial in trials) {
            val card = look.card()
            card.below(look.heading(trial.label))
            card.below(look.quietly(trial.about), 4)
            card.tappable("${trial.label}, ${trial.about}") { send(Event.Pressed(Press.OPEN, trial.id)) }
            list.below(card)
        }
    }
}

class TrialPage(look: Look, send: (Event) -> Unit) : Page<TrialState>(look, send) {
    private val about = look.quietly()
    private val said = look.column()
    private val rest = look.column()

    init {
        content.below(about)
        content.below(trouble)
        content.below(said, 16)
        content.below(rest, 16)
    }

    override fun show(state: TrialState) {
        tell(state.trouble)
        val page = state.page ?: return
        about.text = "${page.line.label} · ${page.line.about}"
        said.removeAllViews()
        rest.removeAllViews()
        page.said.forEach { said.below(look.body(it)) }
        if (page.line.open) open(state) else shown(state)
    }

    private fun open(state: TrialState) {
        said.below(look.quietly(words(R.string.trial_blind)))
        rest.below(look.primary(R.string.score) { send(Event.Pressed(Press.SCORE)) })
        if (state.layout.isEmpty()) {
            ask(state, Press.LAYOUT, R.string.trial_layout, R.string.trial_layout_about, R.string.trial_layout_open)
        } else {
            rest.below(look.heading(words(R.string.trial_layout)), 24)
            state.layout.forEach { plot ->
                val card = look.card()
                card.below(look.text(Sizes.BODY, bold = true).apply { text = "${plot.number} · ${plot.treatment}" })
                card.below(look.quietly(plot.at), 4)
                rest.below(card)
            }
        }
        ask(state, Press.CLOSE_TRIAL, R.string.trial_close, R.string.trial_close_about, R.string.trial_close)
    }

    /** Something that cannot be taken back is asked twice, with what follows from it. */
    private fun ask(state: TrialState, what: Press, name: Int, about: Int, yes: Int) {
        if (state.asking != what) {
            rest.below(look.secondary(name) { send(Event.Pressed(what)) })
            return
        }
        val card: LinearLayout = look.card()
        card.below(look.body(words(about)))
        val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
        acts.addView(look.primary(yes) { send(Event.Pressed(what)) })
        acts.addView(look.secondary(R.string.cancel) { send(Event.Pressed(Press.OTHER)) })
        card.below(acts, 16)
        rest.below(card)
    }

    private fun shown(state: TrialState) {
        val shown = state.page?.shown.orEmpty()
        rest.below(look.heading(words(R.string.trial_shows)))
        if (shown.isEmpty()) rest.below(look.body(words(R.string.trial_nothing)), 4)
        for (one in shown) {
            val card = look.card()
            card.below(look.text(Sizes.BODY, bold = true).apply { text = one.measured })
            one.said.forEach { card.below(look.body(it)) }
            one.charts.forEach { card.below(Drawing(look).apply { show(it) }, 16) }
            rest.below(card)
        }
    }
}
