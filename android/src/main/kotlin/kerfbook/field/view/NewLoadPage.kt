package kerfbook.field.view

import android.view.View
import kerfbook.core.Feel
import kerfbook.core.Measure
import kerfbook.core.Said
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NewLoadState
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.measure

class NewLoadPage(look: Look, send: (Event) -> Unit) : Page<NewLoadState>(look, send) {
    private val form = look.column()
    private val became = look.column()
    private val material = Choice(look, words(R.string.load_material)) { send(Event.Chosen("material", it)) }
    private val questions = QUESTIONS.mapValues { (ask, name) -> Choice(look, words(name)) { send(Event.Chosen(ask, it)) } }
    private val measure = Choice(look, words(R.string.load_measure)) { send(Event.Chosen("measure", it)) }
    private val amount = Entry(look, words(R.string.load_amount), number = true) { send(Event.Typed("amount", it)) }
    private val feel = Choice(look, words(R.string.load_feel)) { send(Event.Chosen("feel", it)) }
    private val from = Entry(look, words(R.string.load_from), number = false) { send(Event.Typed("from", it)) }
    private val label = Entry(look, words(R.string.load_label), number = false) { send(Event.Typed("label", it)) }
    private val save = look.primary(R.string.load_take_in) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(form)
        content.below(became)
        form.below(material.view)
        questions.values.forEach { form.below(it.view, 24) }
        form.below(measure.view, 24)
        form.below(amount.view, 16)
        form.below(feel.view, 24)
        form.below(from.view, 24)
        form.below(label.view, 16)
    }

    override fun show(state: NewLoadState) {
        val wrong = state.wrong
        tell(wrong[""].orEmpty())
        val draft = state.draft
        material.show(
            state.start?.materials.orEmpty().map { Choice.Option(it.name, it.told) },
            draft["material"].orEmpty(),
            wrong["material"].orEmpty(),
        )
        questions.forEach { (ask, choice) ->
            choice.view.shown(ask in state.asks)
            choice.show(
                listOf(
                    Choice.Option(Said.NO.name, words(R.string.no)),
                    Choice.Option(Said.YES.name, words(R.string.yes)),
                    Choice.Option(Said.UNKNOWN.name, words(R.string.dont_know)),
                ),
                draft[ask] ?: Said.UNKNOWN.name,
            )
        }
        measure.show(
            measures(state.start?.trailer == true).filter { it.first != Measure.DEPTH }
                .map { (measure, name) -> Choice.Option(measure.name, words(name)) },
            measure(draft).name,
            wrong["measure"].orEmpty(),
        )
        amount.show(draft["amount"].orEmpty(), wrong["amount"].orEmpty())
        feel.show(
            listOf(
                Choice.Option(Feel.DUSTY.name, words(R.string.feel_dusty)),
                Choice.Option(Feel.DAMP.name, words(R.string.feel_damp)),
                Choice.Option(Feel.DRIPS.name, words(R.string.feel_drips)),
                Choice.Option("", words(R.string.dont_know)),
            ),
            draft["feel"].orEmpty(),
        )
        from.show(draft["from"].orEmpty(), wrong["from"].orEmpty())
        label.show(draft["label"].orEmpty(), wrong["label"].orEmpty())
        became(state)
        save.isEnabled = !state.busy
    }

    private fun became(state: NewLoadState) {
        val taken = state.taken
        form.shown(taken == null)
        became.shown(taken != null)
        save.setText(if (taken == null) R.string.load_take_in else R.string.done)
        became.removeAllViews()
        if (taken == null) return
        val refused = taken.batch == null
        val card = look.card(if (refused) look.warnGround else look.chosen, if (refused) look.warn else look.accent)
        val colour = if (refused) look.warn else look.onChosen
        card.below(look.text(Sizes.HEADING, colour, bold = true).apply {
            setText(if (refused) R.string.load_refused else R.string.in_the_book)
        })
        card.below(look.text(Sizes.BODY, colour).apply { text = taken.saved.text })
        became.below(card)
        became.cautions(look, taken.cautions)
    }

    private companion object {
        val QUESTIONS = mapOf(
            "treated" to R.string.ask_treated,
            "diseased" to R.string.ask_diseased,
            "salty" to R.string.ask_salty,
            "medicines" to R.string.ask_medicines,
            "weedkillers" to R.string.ask_weedkillers,
        )
    }
}

/** In what an amount may be counted. */
internal fun measures(trailer: Boolean): List<Pair<Measure, Int>> = listOfNotNull(
    Measure.BARROWS to R.string.barrows,
    Measure.BUCKETS to R.string.buckets,
    (Measure.TRAILERS to R.string.trailers).takeIf { trailer },
    Measure.DEPTH to R.string.depth,
    Measure.MASS to R.string.mass,
)
