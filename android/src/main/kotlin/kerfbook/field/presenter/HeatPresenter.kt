package kerfbook.field.presenter

import kerfbook.core.HeatGiven
import kerfbook.core.HeatSaved
import kerfbook.core.PilePage
import kerfbook.core.ZoneLine

data class HeatState(
    val draft: Map<String, String>,
    val page: PilePage? = null,
    val read: HeatSaved? = null,
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
) {
    private val done: List<String> get() = draft.at("done").split(SEPARATOR)

    /** Where the probe is: as chosen, else the first zone of the round that was not read on it. */
    val zone: ZoneLine? get() = page?.zones.orEmpty().run {
        firstOrNull { it.name == draft["zone"] } ?: firstOrNull { it.name !in done }
    }

    companion object {
        /** Between the zones of a round that are read: no name of a zone has it. */
        const val SEPARATOR = '\n'
    }
}

/** A round at a pile with the probe, zone by zone. */
class HeatPresenter(private val pile: String) : Presenter<HeatState> {
    override fun start(draft: Map<String, String>) = Step(HeatState(draft), Effect.Ask(Call.Pile(pile)))

    override fun next(state: HeatState, event: Event): Step<HeatState> = when (event) {
        is Event.PileCame -> Step(state.copy(page = event.page))
        is Event.Typed -> Step(change(state, event.field, event.text))
        is Event.Chosen -> Step(change(state, event.field, event.value))
        is Event.HeatCame -> Step(
            state.copy(busy = false, read = event.read, draft = walked(state)),
            listOf(Effect.Confirm, Effect.Ask(Call.Pile(pile))),
        )
        is Event.Changed -> Step(state.copy(read = null), Effect.Confirm)
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        is Event.Pressed -> when (event.what) {
            Press.UNDO -> Step(state, state.read?.saved.orEmpty().map { Effect.Ask(Call.Withdraw(it.entry)) })
            Press.MORE -> Step(state.copy(draft = state.draft + ("more" to "yes")))
            Press.SAVE ->
                if (state.busy) {
                    Step(state)
                } else {
                    Step(state.copy(busy = true, wrong = emptyMap()), Effect.Ask(Call.ReadHeat(given(state))))
                }
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: HeatState) = state.draft

    /** On to the next zone: nothing that was said of the last one stays. */
    private fun walked(state: HeatState): Map<String, String> {
        val done = (state.draft.at("done") + HeatState.SEPARATOR + state.zone?.name.orEmpty()).trim()
        return state.draft - "zone" - "heat" - "smoke" - "moisture" + ("done" to done)
    }

    private fun change(state: HeatState, field: String, value: String) =
        state.copy(draft = state.draft.with(field, value), wrong = state.wrong - field)

    private fun given(state: HeatState) = HeatGiven(
        pile = pile,
        zone = state.zone?.name,
        heat = state.draft.at("heat"),
        depth = state.draft.at("depth"),
        smoke = state.draft.at("smoke") == "yes",
        moisture = state.draft.at("moisture"),
    )
}
