package kerfbook.field.presenter

import kerfbook.core.ContainersGiven
import kerfbook.core.CoreException
import kerfbook.core.CropGiven
import kerfbook.core.FieldBookInterface
import kerfbook.core.FinishGiven
import kerfbook.core.Ground
import kerfbook.core.HeatGiven
import kerfbook.core.Leaves
import kerfbook.core.LoadGiven
import kerfbook.core.LookGiven
import kerfbook.core.NewPlace
import kerfbook.core.PileGiven
import kerfbook.core.PutDownGiven
import kerfbook.core.SlipView
import kerfbook.core.TrialGiven
import kerfbook.core.WalkGiven

/** A call of the core: one a screen. */
sealed class Call {
    object Today : Call()

    object TodayForetold : Call()

    object Trials : Call()

    data class Trial(val trial: String, val leaves: Leaves) : Call()

    data class LayOut(val given: TrialGiven) : Call()

    data class Layout(val trial: String) : Call()

    data class Score(val trial: String, val plot: UInt, val leaves: Leaves, val yellow: UInt) : Call()

    data class Weigh(val trial: String, val plot: UInt, val picked: String) : Call()

    data class Lose(val trial: String, val plot: UInt, val why: String) : Call()

    data class CloseTrial(val trial: String) : Call()

    object Piles : Call()

    data class Pile(val pile: String) : Call()

    object StartPile : Call()

    data class ConsiderPile(val given: PileGiven) : Call()

    data class BuildPile(val given: PileGiven) : Call()

    data class ReadHeat(val given: HeatGiven) : Call()

    object TurningCautions : Call()

    data class TurnPile(val pile: String, val water: String) : Call()

    data class FinishingCautions(val pile: String) : Call()

    data class FinishPile(val given: FinishGiven) : Call()

    data class TickOff(val task: String) : Call()

    object Places : Call()

    object Map : Call()

    data class Place(val place: String) : Call()

    object StartPutDown : Call()

    data class Consider(val given: PutDownGiven) : Call()

    data class PutDown(val given: PutDownGiven) : Call()

    data class TakeIn(val load: LoadGiven) : Call()

    data class Outline(val place: NewPlace) : Call()

    data class Walk(val walk: WalkGiven) : Call()

    data class OutlineWalk(val name: String, val ground: Ground, val walk: WalkGiven) : Call()

    data class StartCrop(val crop: CropGiven) : Call()

    data class Look(val given: LookGiven) : Call()

    data class Entries(val olderThan: String?) : Call()

    data class Withdraw(val entry: String) : Call()

    data class PutBack(val entry: String) : Call()

    data class MoveTo(val entry: String, val place: String) : Call()

    object People : Call()

    data class NamePerson(val name: String) : Call()

    data class ReadContainers(val given: ContainersGiven) : Call()

    data class HandOver(val path: String) : Call()

    data class WrongUnit(val entry: String, val slip: SlipView) : Call()
}

private const val PAGE = 30u

/** Calls the core; whatever it throws becomes an event. Never on the main thread. */
fun answer(book: FieldBookInterface, call: Call): Event = try {
    when (call) {
        is Call.Today -> Event.TodayCame(book.today(), foretold = false)
        is Call.TodayForetold -> Event.TodayCame(book.todayForetold(), foretold = true)
        is Call.TickOff -> Event.Saved(listOf(book.tickOff(call.task)))
        is Call.Trials -> Event.TrialsCame(book.trials())
        is Call.Trial -> Event.TrialCame(book.trial(call.trial, call.leaves))
        is Call.LayOut -> Event.Saved(listOf(book.layOutTrial(call.given)))
        is Call.Layout -> Event.LayoutCame(book.trialLayout(call.trial))
        is Call.Score -> Event.Saved(listOf(book.scorePlot(call.trial, call.plot, call.leaves, call.yellow)))
        is Call.Weigh -> Event.Saved(listOf(book.weighPlot(call.trial, call.plot, call.picked)))
        is Call.Lose -> Event.Saved(listOf(book.losePlot(call.trial, call.plot, call.why)))
        is Call.CloseTrial -> Event.Saved(listOf(book.closeTrial(call.trial)))
        is Call.Piles -> Event.PilesCame(book.piles())
        is Call.Pile -> Event.PileCame(book.pile(call.pile))
        is Call.StartPile -> Event.PileStartCame(book.startPile())
        is Call.ConsiderPile -> Event.PileAnswerCame(call.given, book.considerPile(call.given))
        is Call.BuildPile -> Event.Saved(listOf(book.buildPile(call.given)))
        is Call.ReadHeat -> Event.HeatCame(book.readHeat(call.given))
        is Call.TurningCautions -> Event.CautionsCame(book.turningCautions())
        is Call.TurnPile -> Event.Saved(listOf(book.turnPile(call.pile, call.water)))
        is Call.FinishingCautions -> Event.CautionsCame(book.finishingCautions(call.pile))
        is Call.FinishPile -> Event.FinishedCame(book.finishPile(call.given))
        is Call.Places -> Event.PlacesCame(book.places())
        is Call.Map -> Event.MapCame(book.map())
        is Call.Place -> Event.PlaceCame(book.place(call.place))
        is Call.StartPutDown -> Event.StartCame(book.startPutDown())
        is Call.Consider -> Event.AnswerCame(call.given, book.consider(call.given))
        is Call.PutDown -> Event.Saved(listOf(book.putDown(call.given)))
        is Call.TakeIn -> Event.TakenCame(book.takeIn(call.load))
        is Call.Outline -> Event.Saved(listOf(book.outlinePlace(call.place)))
        is Call.Walk -> Event.WalkCame(book.walk(call.walk))
        is Call.OutlineWalk -> Event.Saved(listOf(book.outlineWalk(call.name, call.ground, call.walk)))
        is Call.StartCrop -> Event.Saved(listOf(book.startCrop(call.crop)))
        is Call.Look -> Event.Saved(book.look(call.given))
        is Call.Entries -> Event.EntriesCame(call.olderThan, book.entries(call.olderThan, PAGE))
        is Call.Withdraw -> Event.Changed(book.withdraw(call.entry, ""))
        is Call.PutBack -> changed(call.entry) { book.putBack(it, "") }
        is Call.MoveTo -> changed(call.entry) { book.moveTo(it, call.place, "") }
        is Call.WrongUnit -> changed(call.entry) { book.wrongUnit(it, call.slip.written, call.slip.meant, "") }
        is Call.People -> Event.PeopleCame(book.people())
        is Call.NamePerson -> Event.Named(book.namePerson(call.name))
        is Call.ReadContainers -> Event.ContainersRead(book.readContainers(call.given))
        is Call.HandOver -> {
            book.handOver(call.path)
            Event.HandedOver(call.path)
        }
    }
} catch (wrong: CoreException) {
    Event.Failed(call, (wrong as? CoreException.BadInput)?.field.orEmpty(), reason(wrong))
}

private fun changed(entry: String, act: (String) -> Unit): Event {
    act(entry)
    return Event.Changed(entry)
}

/** Why, for the person. */
fun reason(wrong: CoreException): String = when (wrong) {
    is CoreException.BadInput -> wrong.reason
    is CoreException.BookDamaged -> wrong.reason
    is CoreException.BookNewer -> wrong.reason
    is CoreException.NoBook -> wrong.reason
    is CoreException.ReadOnly -> wrong.reason
    is CoreException.DiskFull -> wrong.reason
    is CoreException.Platform -> wrong.reason
    is CoreException.Other -> wrong.reason
}
