package kerfbook.field.presenter

import kerfbook.core.AnswerView
import kerfbook.core.CautionView
import kerfbook.core.ContainersView
import kerfbook.core.EntriesView
import kerfbook.core.FinishedView
import kerfbook.core.FixGiven
import kerfbook.core.GivenLine
import kerfbook.core.HeatSaved
import kerfbook.core.MapView
import kerfbook.core.PersonLine
import kerfbook.core.PileAnswer
import kerfbook.core.PileGiven
import kerfbook.core.PileLine
import kerfbook.core.PilePage
import kerfbook.core.PileStart
import kerfbook.core.PlaceLine
import kerfbook.core.PlacePage
import kerfbook.core.PutDownGiven
import kerfbook.core.PutDownStart
import kerfbook.core.SavedView
import kerfbook.core.TakenView
import kerfbook.core.TodayView
import kerfbook.core.TrialLine
import kerfbook.core.TrialPage
import kerfbook.core.WalkView

/** What follows from an event: the next state, and what is to be done outside of it. */
class Step<S>(val state: S, val effects: List<Effect> = emptyList()) {
    constructor(state: S, effect: Effect) : this(state, listOf(effect))
}

/** One screen's thinking: no view, no clock, no core in it, so that it runs in any test. */
interface Presenter<S> {
    /** The screen opens, or comes back with what was typed in it and what another screen brought. */
    fun start(draft: Map<String, String>): Step<S>

    fun next(state: S, event: Event): Step<S>

    /** What a person typed and chose: kept when the process dies. */
    fun draft(state: S): Map<String, String>
}

/** Something outside: a call of the core, another screen, a buzz. */
sealed class Effect {
    data class Ask(val call: Call) : Effect()

    data class Open(val screen: Screen) : Effect()

    /** Back to the screen before, with something for it. */
    data class Close(val brings: Map<String, String> = emptyMap()) : Effect()

    /** Set on this phone from now on. */
    data class Set(val settings: Settings) : Effect()

    /** Something about the walk with the receiver. */
    data class Walk(val wish: Wish) : Effect() {
        enum class Wish { TELL, START, STOP, FORGET }
    }

    /** The hand feels that something has come about. */
    object Buzz : Effect()

    /** A copy of the book for another app. */
    object HandOver : Effect()

    /** It is in the book: the hand feels it. */
    object Confirm : Effect()
}

/** What happened. */
sealed class Event {
    data class Typed(val field: String, val text: String) : Event()

    data class Chosen(val field: String, val value: String) : Event()

    data class Pressed(val what: Press, val about: String = "") : Event()

    /** Today, by the book alone or with what is foretold. */
    data class TodayCame(val view: TodayView, val foretold: Boolean) : Event()

    data class TrialsCame(val trials: List<TrialLine>) : Event()

    data class TrialCame(val page: TrialPage) : Event()

    /** What plots got, for whoever lays a trial out. */
    data class LayoutCame(val layout: List<GivenLine>) : Event()

    data class PilesCame(val piles: List<PileLine>) : Event()

    data class PileCame(val page: PilePage) : Event()

    data class PileStartCame(val start: PileStart) : Event()

    data class PileAnswerCame(val given: PileGiven, val answer: PileAnswer) : Event()

    /** A round at a pile is in the book, with what to heed at its heat. */
    data class HeatCame(val read: HeatSaved) : Event()

    /** What to heed before something is done. */
    data class CautionsCame(val cautions: List<CautionView>) : Event()

    data class FinishedCame(val done: FinishedView) : Event()

    /** The fixes of the walk so far, and whether more are to come. */
    data class Fixed(val parts: List<List<FixGiven>>, val walking: Boolean) : Event()

    /** The receiver does not serve. */
    data class NoFixes(val why: NoFix) : Event()

    data class WalkCame(val view: WalkView) : Event()

    data class PlacesCame(val places: List<PlaceLine>) : Event()

    data class MapCame(val map: MapView) : Event()

    data class PlaceCame(val page: PlacePage) : Event()

    data class StartCame(val start: PutDownStart) : Event()

    data class AnswerCame(val given: PutDownGiven, val answer: AnswerView) : Event()

    data class EntriesCame(val olderThan: String?, val page: EntriesView) : Event()

    data class TakenCame(val taken: TakenView) : Event()

    /** Entries are in the book. */
    data class Saved(val saved: List<SavedView>) : Event()

    /** Something was taken out or put back. */
    data class Changed(val entry: String) : Event()

    data class PeopleCame(val people: List<PersonLine>) : Event()

    /** A person is named in the book. */
    data class Named(val person: String) : Event()

    data class ContainersRead(val holds: ContainersView) : Event()

    /** A copy of the book lies there. */
    data class HandedOver(val path: String) : Event()

    /** The core did not do it; nothing was written. */
    data class Failed(val call: Call, val field: String, val reason: String) : Event()
}

/** Why no fix comes. */
enum class NoFix {
    /** The person gave no leave. */
    DENIED,

    /** Location is switched off. */
    OFF,
}

/** What can be pressed. */
enum class Press {
    SAVE,
    AGAIN,
    UNDO,
    OTHER,
    NEW_PLACE,
    NEW_LOAD,
    PUT_DOWN,
    LOOK,
    OPEN,
    TAKE_OUT,
    PUT_BACK,
    TICK_OFF,
    WALK,
    STOP,
    FORGET,
    TAPE,
    PILES,
    NEW_PILE,
    OPEN_PILE,
    READ_HEAT,
    TURN,
    FINISH,
    TRIALS,
    NEW_TRIAL,
    SCORE,
    SKIP,
    LOST,
    LAYOUT,
    CLOSE_TRIAL,
    MORE,
    ENOUGH,
    NEW_CROP,
    SETTINGS,
    HAND_OVER,
}

/** A draft with something typed or chosen, or without it. */
internal fun Map<String, String>.with(field: String, value: String): Map<String, String> =
    if (value.isEmpty()) this - field else this + (field to value)

/** What stands in a field. */
internal fun Map<String, String>.at(field: String): String = this[field].orEmpty()
