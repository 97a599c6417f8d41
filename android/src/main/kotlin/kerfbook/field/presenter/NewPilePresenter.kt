package kerfbook.field.presenter

import kerfbook.core.PartGiven
import kerfbook.core.PileAnswer
import kerfbook.core.PileGiven
import kerfbook.core.PileStart

data class NewPileState(
    val draft: Map<String, String>,
    val start: PileStart? = null,
    val answer: PileAnswer? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    /** What is described so far. */
    val given: PileGiven get() = PileGiven(
        name = draft.at("name"),
        parts = start?.batches.orEmpty().map { PartGiven(it.id, draft.at("amount-${it.id}")) },
        measure = measure(draft),
        water = draft.at("water"),
        rule = draft["rule"],
    )

    /** Something goes in. */
    val filled: Boolean get() = given.parts.any { it.amount.isNotBlank() }
}

/** A pile from batches: what it would come to is told before it is built. */
object NewPilePresenter : Presenter<NewPileState> {
    override fun start(draft: Map<String, String>) = Step(NewPileState(draft), Effect.Ask(Call.StartPile))

    override fun next(state: NewPileState, event: Event): Step<NewPileState> = when (event) {
        is Event.PileStartCame -> consider(state.copy(start = event.start))
        is Event.Typed -> change(state, event.field, event.text)
        is Event.Chosen -> change(state, event.field, event.value)
        // An answer to what stood there before the last change is old.
        is Event.PileAnswerCame ->
            Step(if (event.given == state.given) state.copy(answer = event.answer, wrong = emptyMap()) else state)
        is Event.Pressed -> when {
            event.what == Press.MORE -> Step(state.copy(draft = state.draft + ("rules" to "all")))
            event.what == Press.NEW_LOAD -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_LOAD)))
            event.what == Press.SAVE && !state.busy ->
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.BuildPile(state.given)))
            else -> Step(state)
        }
        is Event.Saved -> Step(state.copy(busy = false), listOf(Effect.Confirm, Effect.Close()))
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: NewPileState) = state.draft

    private fun change(state: NewPileState, field: String, value: String): Step<NewPileState> {
        val next = state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)
        return if (field == "name" || field == "rule") Step(next) else consider(next.copy(answer = null))
    }

    private fun consider(state: NewPileState): Step<NewPileState> =
        if (state.filled) Step(state, Effect.Ask(Call.ConsiderPile(state.given))) else Step(state)
}
