package kerfbook.field.presenter

import kerfbook.core.PileLine
import kerfbook.core.PilePage

data class PilesState(val piles: List<PileLine>? = null, val trouble: String = "")

/** Piles: the list. */
object PilesPresenter : Presenter<PilesState> {
    override fun start(draft: Map<String, String>) = Step(PilesState(), Effect.Ask(Call.Piles))

    override fun next(state: PilesState, event: Event): Step<PilesState> = when (event) {
        is Event.PilesCame -> Step(PilesState(event.piles))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.NEW_PILE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PILE)))
            Press.OPEN -> Step(state, Effect.Open(Screen(Screen.Kind.PILE, event.about)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: PilesState) = emptyMap<String, String>()
}

data class PileState(val page: PilePage? = null, val trouble: String = "")

/** One pile: its heat against its rule, what is still needed, what can be done at it. */
class PilePresenter(private val pile: String) : Presenter<PileState> {
    override fun start(draft: Map<String, String>) = Step(PileState(), Effect.Ask(Call.Pile(pile)))

    override fun next(state: PileState, event: Event): Step<PileState> = when (event) {
        is Event.PileCame -> Step(PileState(event.page))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.READ_HEAT -> Step(state, Effect.Open(Screen(Screen.Kind.HEAT, pile)))
            Press.TURN -> Step(state, Effect.Open(Screen(Screen.Kind.TURN, pile)))
            Press.FINISH -> Step(state, Effect.Open(Screen(Screen.Kind.FINISH, pile)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: PileState) = emptyMap<String, String>()
}
