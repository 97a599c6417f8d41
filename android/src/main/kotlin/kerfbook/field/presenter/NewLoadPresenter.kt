package kerfbook.field.presenter

import kerfbook.core.Feel
import kerfbook.core.LoadGiven
import kerfbook.core.MaterialLine
import kerfbook.core.Measure
import kerfbook.core.PutDownStart
import kerfbook.core.Said
import kerfbook.core.TakenView

data class NewLoadState(
    val draft: Map<String, String>,
    val start: PutDownStart? = null,
    val taken: TakenView? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    val material: MaterialLine? get() = start?.materials?.firstOrNull { it.name == draft.at("material") }

    /** Yes-or-no questions that make sense for it, in their order. */
    val asks: List<String> get() = material?.asks.orEmpty().filter { it in QUESTIONS }

    companion object {
        val QUESTIONS = listOf("treated", "diseased", "salty", "medicines", "weedkillers")
    }
}

/** A load at the gate. */
object NewLoadPresenter : Presenter<NewLoadState> {
    override fun start(draft: Map<String, String>) = Step(NewLoadState(draft), Effect.Ask(Call.StartPutDown))

    override fun next(state: NewLoadState, event: Event): Step<NewLoadState> = when (event) {
        is Event.StartCame -> Step(state.copy(start = event.start))
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.Pressed -> pressed(state, event)
        is Event.TakenCame -> Step(state.copy(busy = false, taken = event.taken), Effect.Confirm)
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: NewLoadState) = state.draft

    private fun pressed(state: NewLoadState, event: Event.Pressed): Step<NewLoadState> {
        val taken = state.taken
        return when {
            // What became of it has been read.
            taken != null -> Step(state, Effect.Close(taken.batch?.let { mapOf("batch" to it) }.orEmpty()))
            event.what == Press.SAVE && !state.busy ->
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.TakeIn(load(state))))
            else -> Step(state)
        }
    }

    private fun change(state: NewLoadState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun load(state: NewLoadState): LoadGiven {
        val typed = state.draft
        fun said(question: String) = Said.values().firstOrNull { it.name == typed.at(question) } ?: Said.UNKNOWN
        return LoadGiven(
            label = typed.at("label"),
            material = typed.at("material"),
            amount = typed.at("amount"),
            measure = measure(typed),
            fromWhom = typed.at("from"),
            treated = said("treated"),
            diseased = said("diseased"),
            salty = said("salty"),
            medicines = said("medicines"),
            weedkillers = said("weedkillers"),
            feel = Feel.values().firstOrNull { it.name == typed.at("feel") },
        )
    }
}

/** In what an amount is counted; barrows where nobody chose. */
internal fun measure(draft: Map<String, String>): Measure =
    Measure.values().firstOrNull { it.name == draft.at("measure") } ?: Measure.BARROWS
