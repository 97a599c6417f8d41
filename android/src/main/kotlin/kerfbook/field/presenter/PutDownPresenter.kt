package kerfbook.field.presenter

import kerfbook.core.AnswerView
import kerfbook.core.Manner
import kerfbook.core.PutDownGiven
import kerfbook.core.PutDownStart
import kerfbook.core.RunGiven
import kerfbook.core.SavedView

data class PutDownState(
    val draft: Map<String, String>,
    val start: PutDownStart? = null,
    val answer: AnswerView? = null,
    val saved: SavedView? = null,
    val undone: Boolean = false,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    /** The way that was chosen, else the answer's. */
    val manner: Manner? get() = Manner.values().firstOrNull { it.name == draft.at("manner") } ?: answer?.manner

    /** The place has rows of trees: a load may go along a run of them. */
    val alongRows: Boolean get() = start?.places?.any { it.id == draft.at("place") && it.rows } == true

    /** Enough is said for an answer: a run of trees has both its ends, or none is meant. */
    val asked: PutDownGiven? get() {
        val ends = if (alongRows) RUN.map(draft::at) else emptyList()
        val half = ends.any(String::isEmpty) && ends.any(String::isNotEmpty)
        if (half || listOf("place", "batch", "amount").any { draft.at(it).isEmpty() }) return null
        val run = ends.takeIf { it.all(String::isNotEmpty) && it.isNotEmpty() }
            ?.let { (fromRow, fromTree, toRow, toTree) -> RunGiven(fromRow, fromTree, toRow, toTree) }
        return PutDownGiven(draft.at("place"), draft.at("batch"), draft.at("amount"), measure(draft), null, run)
    }
}

/** The fields of a run of trees. */
val RUN = listOf("from_row", "from_tree", "to_row", "to_tree")

/** Put down: where, of what, how much; the answer; then save. */
class PutDownPresenter(private val place: String) : Presenter<PutDownState> {
    override fun start(draft: Map<String, String>): Step<PutDownState> {
        val known = if (place.isEmpty() || "place" in draft) draft else draft + ("place" to place)
        return Step(PutDownState(known), Effect.Ask(Call.StartPutDown))
    }

    override fun next(state: PutDownState, event: Event): Step<PutDownState> = when (event) {
        is Event.StartCame -> consider(state.copy(start = event.start))
        is Event.Typed -> change(state, event.field, event.text)
        is Event.Chosen -> change(state, event.field, event.value)
        // An answer to what was asked before the last change is old.
        is Event.AnswerCame ->
            Step(if (event.given == state.asked) state.copy(answer = event.answer, busy = false) else state)
        is Event.Saved -> Step(
            state.copy(saved = event.saved.first(), undone = false, busy = false),
            listOf(Effect.Confirm, Effect.Ask(Call.StartPutDown)),
        )
        is Event.Changed -> Step(state.copy(undone = true, busy = false), Effect.Ask(Call.StartPutDown))
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> pressed(state, event.what)
        else -> Step(state)
    }

    override fun draft(state: PutDownState) = state.draft

    private fun change(state: PutDownState, field: String, value: String): Step<PutDownState> {
        val changed = state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field, saved = null)
        if (field == "manner") return Step(changed)
        return consider(changed.copy(answer = null, draft = changed.draft - "manner"))
    }

    /** Asks for the answer as soon as enough is said. */
    private fun consider(state: PutDownState): Step<PutDownState> {
        val given = state.asked
        if (given == null || state.saved != null) return Step(state)
        return Step(state.copy(busy = true), Effect.Ask(Call.Consider(given)))
    }

    private fun again(state: PutDownState, undone: Boolean): Step<PutDownState> {
        val start = state.start
        if (state.asked?.run == null || undone || start == null) return consider(state)
        val next = start.onward
            // After the last tree: not on all of them by mistake.
            ?: return Step(state.copy(draft = state.draft - RUN - "amount", wrong = mapOf("to_tree" to start.atEnd)))
        val ends = listOf(next.fromRow, next.fromTree, next.toRow, next.toTree)
        return consider(state.copy(draft = state.draft + RUN.zip(ends)))
    }

    private fun pressed(state: PutDownState, what: Press): Step<PutDownState> = when (what) {
        Press.SAVE -> {
            val given = state.asked?.copy(manner = state.manner)
            if (given == null || given.manner == null || state.saved != null) {
                Step(state)
            } else {
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.PutDown(given)))
            }
        }
        // The next load of a run: all as before, along as many trees from where the last one ended, with a new answer.
        Press.AGAIN -> again(state.copy(saved = null, undone = false, answer = null), state.undone)
        Press.OTHER -> Step(PutDownState(emptyMap(), state.start))
        Press.UNDO -> state.saved?.let { Step(state, Effect.Ask(Call.Withdraw(it.entry))) } ?: Step(state)
        // The most that the place takes, in place of what was asked about.
        Press.ENOUGH -> state.answer?.enough?.let {
            val amount = mapOf("amount" to it.amount, "measure" to it.measure.name)
            consider(state.copy(draft = state.draft + amount, answer = null))
        } ?: Step(state)
        Press.NEW_PLACE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PLACE)))
        Press.NEW_LOAD -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_LOAD)))
        else -> Step(state)
    }
}
