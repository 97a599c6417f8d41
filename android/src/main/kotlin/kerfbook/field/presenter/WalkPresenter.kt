package kerfbook.field.presenter

import kerfbook.core.FixGiven
import kerfbook.core.Ground
import kerfbook.core.WalkGiven
import kerfbook.core.WalkView

data class WalkState(
    val draft: Map<String, String>,
    /** Fixes of each part; they are kept outside of the draft, as they come. */
    val parts: List<List<FixGiven>> = emptyList(),
    val walking: Boolean = false,
    val view: WalkView? = null,
    val trouble: NoFix? = null,
    /** The fixes that the core is being asked about, none where it is not. */
    val asked: Int? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    val fixes: Int get() = parts.sumOf { it.size }

    val ground: Ground get() = Ground.values().firstOrNull { it.name == draft.at("ground") } ?: Ground.BED

    val walk: WalkGiven get() = WalkGiven(parts, draft["trees"] == "yes")

    /** It stands still, and a place can be made of it. */
    val ready: Boolean get() = !walking && view?.usable == true && asked == null
}

/** Walking round a place: told as it grows, then named and saved. */
class WalkPresenter(private val about: String) : Presenter<WalkState> {
    override fun start(draft: Map<String, String>): Step<WalkState> {
        val (ground, label) = about.split('\n', limit = 2).let { it.first() to it.getOrElse(1) { "" } }
        val known = mapOf("ground" to ground).with("label", label) + draft
        return Step(WalkState(known), Effect.Walk(Effect.Walk.Wish.TELL))
    }

    override fun next(state: WalkState, event: Event): Step<WalkState> = when (event) {
        is Event.Fixed -> ask(state.copy(parts = event.parts, walking = event.walking, trouble = null))
        is Event.NoFixes -> Step(state.copy(walking = false, trouble = event.why))
        is Event.WalkCame -> came(state, event.view)
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> change(state, event.field, event.value).let { if (event.field == "trees") ask(it) else Step(it) }
        is Event.Saved -> Step(
            state.copy(busy = false),
            listOf(
                Effect.Confirm,
                Effect.Walk(Effect.Walk.Wish.FORGET),
                Effect.Close(mapOf("walked" to event.saved.first().entry)),
            ),
        )
        is Event.Failed -> Step(state.copy(busy = false, asked = null, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> pressed(state, event.what)
        else -> Step(state)
    }

    override fun draft(state: WalkState) = state.draft

    private fun pressed(state: WalkState, what: Press): Step<WalkState> = when (what) {
        Press.WALK -> Step(state.copy(trouble = null), Effect.Walk(Effect.Walk.Wish.START))
        Press.STOP -> Step(state, Effect.Walk(Effect.Walk.Wish.STOP))
        Press.FORGET ->
            if ("forget" in state.draft) {
                Step(state.copy(draft = state.draft - "forget", view = null), Effect.Walk(Effect.Walk.Wish.FORGET))
            } else {
                Step(state.copy(draft = state.draft + ("forget" to "asked")))
            }
        Press.OTHER -> Step(state.copy(draft = state.draft - "forget"))
        Press.TAPE -> Step(state, listOf(Effect.Walk(Effect.Walk.Wish.STOP), Effect.Close(mapOf("by" to "taped"))))
        Press.SAVE ->
            if (state.ready && !state.busy) {
                val call = Call.OutlineWalk(state.draft.at("label"), state.ground, state.walk)
                Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(call))
            } else {
                Step(state)
            }
        else -> Step(state)
    }

    /** Asks how the walk stands, one question at a time: fixes come faster than answers on an old phone. */
    private fun ask(state: WalkState): Step<WalkState> =
        if (state.asked != null) Step(state) else Step(state.copy(asked = state.fixes), Effect.Ask(Call.Walk(state.walk)))

    private fun came(state: WalkState, view: WalkView): Step<WalkState> {
        val closes = view.closed && state.view?.closed == false && state.walking
        val next = state.copy(view = view, asked = null)
        val again = if (state.asked == state.fixes) Step(next) else ask(next)
        return if (closes) Step(again.state, again.effects + Effect.Buzz) else again
    }

    private fun change(state: WalkState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)
}
