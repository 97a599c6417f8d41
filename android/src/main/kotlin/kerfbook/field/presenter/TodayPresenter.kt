package kerfbook.field.presenter

import kerfbook.core.TodayView

data class TodayState(val view: TodayView? = null, val trouble: String = "")

/** Today: what needs doing, and the way to everything else. */
object TodayPresenter : Presenter<TodayState> {
    override fun start(draft: Map<String, String>) = Step(TodayState(), Effect.Ask(Call.Today))

    override fun next(state: TodayState, event: Event): Step<TodayState> = when (event) {
        is Event.TodayCame -> Step(TodayState(event.view))
        is Event.Failed -> Step(state.copy(trouble = event.reason))
        is Event.Pressed -> when (event.what) {
            Press.NEW_PLACE -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_PLACE)))
            Press.NEW_LOAD -> Step(state, Effect.Open(Screen(Screen.Kind.NEW_LOAD)))
            Press.PUT_DOWN -> Step(state, Effect.Open(Screen(Screen.Kind.PUT_DOWN, event.about)))
            Press.LOOK -> Step(state, Effect.Open(Screen(Screen.Kind.LOOK, event.about)))
            Press.OPEN -> Step(state, Effect.Open(Screen(Screen.Kind.PLACE, event.about)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: TodayState) = emptyMap<String, String>()
}
