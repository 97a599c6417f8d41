package kerfbook.field.view

import android.view.View
import kerfbook.core.Measure
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.FinishState
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.measure

class FinishPage(look: Look, send: (Event) -> Unit) : Page<FinishState>(look, send) {
    private val form = look.column()
    private val became = look.column()
    private val heed = look.column()
    private val name = Entry(look, words(R.string.finish_name), number = false) { send(Event.Typed("name", it)) }
    private val measure = Choice(look, words(R.string.load_measure)) { send(Event.Chosen("measure", it)) }
    private val amount = Entry(look, words(R.string.load_amount), number = true) { send(Event.Typed("amount", it)) }
    private val moisture = Entry(look, words(R.string.moisture_pct), number = true) { send(Event.Typed("moisture", it)) }
    private val ratio = Entry(look, words(R.string.finish_ratio), number = true) { send(Event.Typed("carbon_nitrogen", it)) }
    private val save = look.primary(R.string.finish_save) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(became)
        content.below(form)
        form.below(name.view)
        form.below(look.quietly(words(R.string.finish_about)), 16)
        form.below(measure.view, 16)
        form.below(amount.view, 16)
        form.below(moisture.view, 16)
        form.below(ratio.view, 16)
        content.below(heed, 24)
    }

    override fun show(state: FinishState) {
        val (draft, wrong) = state.draft to state.wrong
        tell(wrong[""].orEmpty())
        heed.removeAllViews()
        heed.cautions(look, state.cautions)
        name.show(draft["name"].orEmpty(), wrong["name"].orEmpty())
        measure.show(
            measures(trailer = false).filter { it.first != Measure.DEPTH }
                .map { (measure, name) -> Choice.Option(measure.name, words(name)) },
            measure(draft).name,
            wrong["measure"].orEmpty(),
        )
        amount.show(draft["amount"].orEmpty(), wrong["amount"].orEmpty())
        moisture.show(draft["moisture"].orEmpty(), wrong["moisture"].orEmpty())
        ratio.show(draft["carbon_nitrogen"].orEmpty(), wrong["carbon_nitrogen"].orEmpty())
        val done = state.done
        form.shown(done == null)
        became.removeAllViews()
        done?.let {
            val card = look.card(look.chosen, look.accent)
            card.below(look.text(Sizes.HEADING, look.onChosen, bold = true).apply { setText(R.string.in_the_book) })
            (listOf(it.saved.text) + it.said).forEach { said -> card.below(look.text(Sizes.BODY, look.onChosen).apply { text = said }) }
            became.below(card)
        }
        save.setText(if (done == null) R.string.finish_save else R.string.done)
        look.ready(save, !state.busy)
    }
}
