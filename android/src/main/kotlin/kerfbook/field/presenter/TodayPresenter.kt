package kerfbook.field.presenter

import kerfbook.core.TodayView

data class TodayState(
    val view: TodayView? = null,
    /** What the forecasts ask for is still being worked out. */
    val waits: Boolean = false,
    /** How many tasks are shown. */
    val shown: Int = PAGE,
    val trouble: String = "",
) {
    companion object {
        const val PAGE = 20
    }
}

/** Today: what needs doing, and the way to everything else. */
object TodayPresenter : Presenter<TodayState> {
    override fun start(draft: Map<String, String>) = Step(TodayState(), Effect.Ask(Call.Today))

    override fun next(state: TodayState, event: Event): Step<TodayState> = when (event) {
        is Event.TodayCame -> came(state, event)
        is Event.Saved -> Step(state, listOf(Effect.Confirm, Effect.Ask(Call.Today)))
        is Event.Failed -> Step(state.copy(waits = false, trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.NEW_PLACE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PLACE)))
            Press.NEW_LOAD -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_LOAD)))
            Press.PUT_DOWN -> Step(state, Effect.Open(Screen(Screen.Kind.PUT_DOWN, event.about)))
            Press.LOOK -> Step(state, Effect.Open(Screen(Screen.Kind.LOOK, event.about)))
            Press.OPEN -> Step(state, Effect.Open(Screen(Screen.Kind.PLACE, event.about)))
            Press.OPEN_PILE -> Step(state, Effect.Open(Screen(Screen.Kind.PILE, event.about)))
            Press.TICK_OFF -> Step(state, Effect.Ask(Call.TickOff(event.about)))
            Press.MORE -> Step(state.copy(shown = state.shown + TodayState.PAGE))
            else -> Step(state)
        }
        else -> Step(state)
    }

    /** What the book says stands there at once; what is foretold takes a moment, where anything can be. */
    private fun came(state: TodayState, event: Event.TodayCame): Step<TodayState> {
        val waits = !event.foretold && event.view.places > 0u
        val next = state.copy(view = event.view, waits = waits, trouble = "")
        return if (waits) Step(next, Effect.Ask(Call.TodayForetold)) else Step(next)
    }

    override fun draft(state: TodayState) = emptyMap<String, String>()
}
