package kerfbook.field.view

import android.view.View
import kerfbook.core.AnswerView
import kerfbook.core.Manner
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.PutDownState
import kerfbook.field.presenter.RUN
import kerfbook.field.presenter.measure

class PutDownPage(look: Look, send: (Event) -> Unit) : Page<PutDownState>(look, send) {
    private val form = look.column()
    private val done = look.column()
    private val place = Choice(look, words(R.string.put_down_where)) { send(Event.Chosen("place", it)) }
    private val newPlace = look.secondary(R.string.new_place) { send(Event.Pressed(Press.NEW_PLACE)) }
    private val batch = Choice(look, words(R.string.put_down_what)) { send(Event.Chosen("batch", it)) }
    private val newLoad = look.secondary(R.string.new_load) { send(Event.Pressed(Press.NEW_LOAD)) }
    private val measure = Choice(look, words(R.string.put_down_measure)) { send(Event.Chosen("measure", it)) }
    private val counts = Choice(look, words(R.string.put_down_much)) { send(Event.Chosen("amount", it)) }
    private val amount = Entry(look, words(R.string.put_down_other), number = true) { send(Event.Typed("amount", it)) }
    private val ends = RUN.zip(
        listOf(R.string.run_from, R.string.run_from_tree, R.string.run_to, R.string.run_to_tree),
    ).associate { (field, name) -> field to Entry(look, words(name), number = true) { send(Event.Typed(field, it)) } }
    private val run = look.column()
    private val answer = look.column()
    private val manner = Choice(look, words(R.string.put_down_how)) { send(Event.Chosen("manner", it)) }
    private val save = look.primary(R.string.save) { send(Event.Pressed(Press.SAVE)) }
    private var told: AnswerView? = null
    override val action: View = save

    init {
        content.below(trouble)
        content.below(form)
        content.below(done)
        form.below(place.view)
        form.below(newPlace)
        form.below(batch.view, 24)
        form.below(newLoad)
        form.below(counts.view, 24)
        form.below(amount.view)
        form.below(measure.view, 16)
        form.below(run, 24)
        run.below(look.heading(words(R.string.run)))
        run.below(look.quietly(words(R.string.run_about)), 4)
        ends.values.forEach { run.below(it.view) }
        form.below(answer, 24)
        form.below(manner.view, 24)
    }

    override fun show(state: PutDownState) {
        tell(state.wrong[""].orEmpty())
        val saved = state.saved
        form.shown(saved == null)
        done.shown(saved != null)
        save.shown(saved == null)
        if (saved != null) return finished(state)
        choices(state)
        answered(state)
        look.ready(save, state.answer != null && state.manner != null && !state.busy)
        save.setText(
            when {
                state.answer != null -> R.string.save
                state.asked != null && state.busy -> R.string.put_down_thinking
                else -> R.string.put_down_say_first
            },
        )
    }

    private fun choices(state: PutDownState) {
        val draft = state.draft
        val wrong = state.wrong
        val start = state.start ?: return
        place.show(
            start.places.map { Choice.Option(it.id, it.label, "${it.label}, ${it.about}") },
            draft["place"].orEmpty(),
            wrong["place"].orEmpty(),
        )
        batch.show(
            start.batches.map { Choice.Option(it.id, "${it.label}\n${it.left}", "${it.label}, ${it.material}, ${it.left}") },
            draft["batch"].orEmpty(),
            wrong["batch"].orEmpty(),
        )
        run.shown(state.alongRows)
        ends.forEach { (field, entry) -> entry.show(draft[field].orEmpty(), wrong[field].orEmpty()) }
        val given = draft["amount"].orEmpty()
        val counted = measure(draft)
        counts.show(COUNTS.map { Choice.Option(it, it) }, given, wrong["amount"].orEmpty())
        amount.show(given)
        measure.show(
            measures(start.trailer).map { (measure, name) -> Choice.Option(measure.name, words(name)) },
            counted.name,
            wrong["measure"].orEmpty(),
        )
    }

    private fun answered(state: PutDownState) {
        val view = state.answer
        answer.shown(view != null)
        manner.view.shown(view != null)
        if (view == null) return
        if (view != told) {
            told = view
            answer.removeAllViews()
            fill(view)
        }
        manner.show(
            view.ways.distinctBy { it.manner }.map { way ->
                val cost = if (way.cost.isEmpty()) "" else "\n${way.cost}"
                Choice.Option(way.manner.name, way.name + cost)
            } + missing(view),
            state.manner?.name.orEmpty(),
            state.wrong["manner"].orEmpty(),
        )
    }

    /** Ways that the comparison does not rank, but that a person may still choose. */
    private fun missing(view: AnswerView): List<Choice.Option> =
        if (view.ways.any { it.manner == view.manner }) {
            emptyList()
        } else {
            listOf(Choice.Option(view.manner.name, words(name(view.manner))))
        }

    private fun name(manner: Manner): Int = when (manner) {
        Manner.PATH -> R.string.way_path
        Manner.RING -> R.string.way_ring
        else -> R.string.way_on_top
    }

    private fun fill(view: AnswerView) {
        val card = look.card(edge = look.accent)
        card.below(look.heading(words(R.string.answer)))
        card.below(look.text(Sizes.HEADING, bold = true).apply { text = view.instruction })
        if (view.enough != null) {
            card.below(look.secondary(R.string.put_down_enough) { send(Event.Pressed(Press.ENOUGH)) })
        }
        view.keepOff?.let { card.below(look.body(it)) }
        listOf(view.give, view.look, view.avoid).forEach { card.below(look.body(it)) }
        card.below(look.body("${view.cost} ${view.leastKnown}"), 16)
        card.below(look.quietly(view.narrow))
        view.more.forEach { card.below(look.quietly(it)) }
        if (view.leftOut.isNotEmpty()) card.below(look.text(Sizes.BODY, look.warn).apply { text = view.leftOut })
        answer.below(card)
        answer.cautions(look, view.cautions)
    }

    private fun finished(state: PutDownState) {
        done.removeAllViews()
        val card = look.card(look.chosen, look.accent)
        card.below(look.text(Sizes.HEADING, look.onChosen, bold = true).apply {
            setText(if (state.undone) R.string.taken_out else R.string.in_the_book)
        })
        card.below(look.text(Sizes.BODY, look.onChosen).apply { text = state.saved?.text })
        done.below(card)
        done.below(look.primary(R.string.same_again) { send(Event.Pressed(Press.AGAIN)) }, 16)
        done.below(look.secondary(R.string.something_else) { send(Event.Pressed(Press.OTHER)) })
        if (!state.undone) done.below(look.secondary(R.string.undo) { send(Event.Pressed(Press.UNDO)) })
    }

    private companion object {
        val COUNTS = listOf("1", "2", "3", "4", "5", "6", "8", "10", "12", "15")
    }
}
