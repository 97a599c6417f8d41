package kerfbook.field.presenter

import kerfbook.core.Manner
import kerfbook.field.TestClock
import kerfbook.field.withBook
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test

class PresentersTest {
    @Test
    fun `a usual putting-down takes at most six taps, the next load two`() = withBook { book ->
        val (place, batch) = stocked(book)
        val hand = Hand(PutDownPresenter(""), book)
        val opening = 1
        hand.choose("place", place)
        hand.choose("batch", batch)
        hand.choose("amount", "6")
        assertNotNull("the answer stands there before anything is saved", hand.state.answer)
        hand.press(Press.SAVE)
        assertTrue(checkNotNull(hand.state.saved).text.contains("6 barrows"))
        assertTrue("${hand.taps + opening} taps", hand.taps + opening <= 6)
        val before = hand.taps
        hand.press(Press.AGAIN)
        hand.press(Press.SAVE)
        assertNotNull(hand.state.saved)
        assertEquals(2, hand.taps - before)
        assertEquals("8 barrows left", hand.state.start?.batches?.single()?.left)
    }

    @Test
    fun `today tells what the book asks for at once, and what is foretold after it`() = withBook(TestClock()) { book ->
        val (place, batch) = stocked(book)
        val hand = Hand(PutDownPresenter(place), book)
        hand.choose("batch", batch)
        hand.choose("amount", "6")
        hand.press(Press.SAVE)
        val step = TodayPresenter.start(emptyMap())
        val first = TodayPresenter.next(step.state, answer(book, Call.Today))
        assertTrue(first.state.waits)
        assertEquals(listOf<Effect>(Effect.Ask(Call.TodayForetold)), first.effects)
        val second = TodayPresenter.next(first.state, answer(book, Call.TodayForetold))
        assertFalse(second.state.waits)
        assertTrue(second.effects.isEmpty())
    }

    @Test
    fun `a plot is scored in two taps, blind, and what it shows is told after closing`() = withBook { book ->
        val new = Hand(NewTrialPresenter, book)
        new.type("name", "Beds by the gate")
        new.type("treatment-0", "raw sawdust")
        new.press(Press.SAVE)
        assertEquals(setOf("treatment-1"), new.state.wrong.keys)
        new.type("treatment-1", "composted")
        new.choose("blocks", "8")
        new.press(Press.SAVE)
        val trial = Hand(TrialsPresenter, book).state.trials.orEmpty().single().id
        val got = book.trialLayout(trial).associate { it.number to it.treatment }
        val hand = Hand(ScorePresenter(trial), book)
        var plots = 0
        val counted = mutableMapOf<String, Int>()
        while (hand.state.plot != null) {
            val plot = checkNotNull(hand.state.plot).number
            val before = hand.taps
            // Each treatment varies by its own count: by the walk's, the lot could leave no variation at all.
            val seen = counted.merge(got[plot].orEmpty(), 1, Int::plus) ?: 0
            hand.choose("yellow", if (got[plot] == "composted") listOf("5", "10")[seen % 2] else listOf("30", "40")[seen % 2])
            hand.press(Press.SAVE)
            assertEquals(2, hand.taps - before)
            plots++
        }
        assertEquals(16, plots)
        hand.press(Press.UNDO)
        assertNotNull("what was undone is scored anew", hand.state.plot)
        hand.press(Press.LOST)
        hand.press(Press.SAVE)
        assertEquals("nothing was chosen: nothing is saved", null, hand.state.saved)
        hand.press(Press.LOST)
        assertEquals(setOf("reason"), hand.state.wrong.keys)
        hand.type("reason", "a mole")
        hand.press(Press.LOST)
        assertNull(hand.state.plot)
        val page = Hand(TrialPresenter(trial), book)
        assertTrue(page.state.page?.shown.orEmpty().isEmpty())
        page.press(Press.CLOSE_TRIAL)
        assertTrue("asked first", checkNotNull(page.state.page).line.open)
        page.press(Press.CLOSE_TRIAL)
        assertTrue(page.state.page?.shown.orEmpty().first().said.any { it.contains("composted yellowed less") })
    }

    @Test
    fun `what goes where is shown only when asked twice, and a passed plot comes again on the next walk`() = withBook { book ->
        val given = kerfbook.core.TrialGiven("Row ends", listOf("chips", "bark"), "2")
        val trial = book.layOutTrial(given).entry
        val page = Hand(TrialPresenter(trial), book)
        page.press(Press.LAYOUT)
        assertTrue(page.state.layout.isEmpty())
        page.press(Press.LAYOUT)
        assertEquals(4, page.state.layout.size)
        val hand = Hand(ScorePresenter(trial), book)
        val first = checkNotNull(hand.state.plot).number
        hand.press(Press.SKIP)
        assertTrue(first != hand.state.plot?.number)
        assertEquals(hand.state.plot?.number, hand.reborn().state.plot?.number)
        hand.choose("what", "YIELD")
        assertEquals(first, hand.state.plot?.number)
        hand.type("picked", "two")
        hand.press(Press.SAVE)
        assertEquals(setOf("picked"), hand.state.wrong.keys)
        hand.type("picked", "2,5")
        hand.press(Press.SAVE)
        assertTrue(first != hand.state.plot?.number)
    }

    @Test
    fun `a way may be chosen against the answer`() = withBook { book ->
        val (place, batch) = stocked(book)
        val hand = Hand(PutDownPresenter(place), book)
        hand.choose("batch", batch)
        hand.choose("amount", "3")
        val other = Manner.values().first { it != hand.state.answer?.manner && it == Manner.WORKED_IN || it == Manner.ON_TOP }
        hand.choose("manner", other.name)
        assertEquals(other, hand.state.manner)
        hand.press(Press.SAVE)
        assertNotNull(hand.state.saved)
    }

    @Test
    fun `undo is a withdrawal, and the balance comes back`() = withBook { book ->
        val (place, batch) = stocked(book)
        val hand = Hand(PutDownPresenter(place), book)
        hand.choose("batch", batch)
        hand.choose("amount", "5")
        hand.press(Press.SAVE)
        hand.press(Press.UNDO)
        assertTrue(hand.state.undone)
        assertEquals("20 barrows left", hand.state.start?.batches?.single()?.left)
        val entries = Hand(BookPresenter, book).state.entries.orEmpty()
        assertTrue(entries.any { it.out && it.text.contains("5 barrows") })
    }

    @Test
    fun `what was typed is there again after the process died`() = withBook { book ->
        val (place, batch) = stocked(book)
        val hand = Hand(PutDownPresenter(place), book)
        hand.choose("batch", batch)
        hand.choose("amount", "7")
        val again = hand.reborn()
        assertEquals("7", again.state.draft["amount"])
        assertNotNull("the answer is worked out again", again.state.answer)
        val opened = Navigation.FIRST.open(Screen(Screen.Kind.PUT_DOWN, place)).keep(again.state.draft)
        assertEquals(opened, kerfbook.field.unpacked(kerfbook.field.packed(opened)))
    }

    @Test
    fun `a wrong figure is told beside its field, and stays`() = withBook { book ->
        val hand = Hand(NewPlacePresenter, book)
        hand.type("label", "Bed 1")
        hand.type("length", "1.2.3")
        hand.type("width", "2")
        hand.press(Press.SAVE)
        assertEquals(setOf("length"), hand.state.wrong.keys)
        assertEquals("1.2.3", hand.state.draft["length"])
        hand.type("length", "12")
        assertTrue(hand.state.wrong.isEmpty())
        hand.press(Press.SAVE)
        assertTrue(hand.left.any { it is Effect.Close })
    }

    @Test
    fun `a load of treated wood is sent away with the reason`() = withBook { book ->
        val hand = Hand(NewLoadPresenter, book)
        hand.choose("material", "sawdust, mixed")
        hand.choose("treated", "YES")
        hand.press(Press.SAVE)
        val taken = checkNotNull(hand.state.taken)
        assertNull(taken.batch)
        assertFalse(taken.cautions.isEmpty())
        hand.press(Press.SAVE)
        assertEquals(emptyMap<String, String>(), hand.left.filterIsInstance<Effect.Close>().single().brings)
    }

    @Test
    fun `whoever answers don't know to everything gets an answer`() = withBook { book ->
        val place = Hand(NewPlacePresenter, book)
        place.type("label", "Somewhere")
        place.choose("by", "area")
        place.type("area", "12")
        place.press(Press.SAVE)
        val load = Hand(NewLoadPresenter, book)
        load.choose("material", "wood, unknown")
        load.press(Press.SAVE)
        val hand = Hand(PutDownPresenter(""), book)
        hand.choose("place", place.left.filterIsInstance<Effect.Close>().single().brings.getValue("place"))
        hand.choose("batch", checkNotNull(load.state.taken?.batch))
        hand.choose("amount", "4")
        val answer = checkNotNull(hand.state.answer)
        assertTrue(answer.instruction.isNotEmpty() && answer.narrow.isNotEmpty())
    }

    @Test
    fun `what is seen goes into the book at once, or nothing of it`() = withBook { book ->
        val (place, _) = stocked(book)
        val hand = Hand(LookPresenter(place), book)
        hand.choose("yellow", "SOME")
        hand.type("depth", "400")
        hand.press(Press.SAVE)
        assertEquals(setOf("depth"), hand.state.wrong.keys)
        val before = Hand(BookPresenter, book).state.entries.orEmpty().size
        hand.type("depth", "4")
        hand.press(Press.SAVE)
        assertEquals(2, hand.state.saved.size)
        assertEquals(before + 2, Hand(BookPresenter, book).state.entries.orEmpty().size)
    }

    @Test
    fun `an entry is taken out only when asked twice, and comes back`() = withBook { book ->
        stocked(book)
        val hand = Hand(BookPresenter, book)
        val load = hand.state.entries.orEmpty().first { it.text.contains("Mill") }
        hand.press(Press.TAKE_OUT, load.id)
        assertFalse(hand.state.entries.orEmpty().first { it.id == load.id }.out)
        hand.press(Press.OPEN, load.id)
        hand.press(Press.TAKE_OUT, load.id)
        assertTrue(hand.state.entries.orEmpty().first { it.id == load.id }.out)
        hand.press(Press.PUT_BACK, load.id)
        assertFalse(hand.state.entries.orEmpty().first { it.id == load.id }.out)
    }

    @Test
    fun `the wrong bed is put right from the book, and that can be taken back`() = withBook { book ->
        val (place, batch) = stocked(book)
        val other = Hand(NewPlacePresenter, book).run {
            type("label", "Bed 2")
            type("length", "8")
            type("width", "1,2")
            press(Press.SAVE)
            left.filterIsInstance<Effect.Close>().single().brings.getValue("place")
        }
        val put = Hand(PutDownPresenter(place), book)
        put.choose("batch", batch)
        put.choose("amount", "6")
        put.press(Press.SAVE)
        val hand = Hand(BookPresenter, book)
        fun entry() = hand.state.entries.orEmpty().first { it.id == put.state.saved?.entry }
        assertEquals(place, entry().place)
        hand.press(Press.OPEN, entry().id)
        hand.choose("place", other)
        assertEquals(other, entry().place)
        assertTrue(entry().text.contains("Bed 2"))
        val correction = hand.state.entries.orEmpty().first()
        hand.press(Press.OPEN, correction.id)
        hand.press(Press.TAKE_OUT, correction.id)
        assertEquals(place, entry().place)
    }

    @Test
    fun `the wrong unit is put right from the book`() = withBook { book ->
        val (place, _) = stocked(book)
        val look = Hand(LookPresenter(place), book)
        look.type("depth", "2")
        look.press(Press.SAVE)
        val hand = Hand(BookPresenter, book)
        fun entry() = hand.state.entries.orEmpty().first { it.id == look.state.saved.single().entry }
        assertTrue(entry().text.contains("2 cm"))
        hand.press(Press.OPEN, entry().id)
        hand.choose("unit", entry().slips.single { it.meant == "in" }.text)
        assertTrue(entry().text, entry().text.contains("5 cm") || entry().text.contains("5.1 cm"))
    }
}
