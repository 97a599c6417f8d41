package kerfbook.field

import android.content.Intent
import android.database.sqlite.SQLiteDatabase
import android.os.Looper
import android.os.ParcelFileDescriptor
import kerfbook.core.FieldBook
import kerfbook.field.platform.HandedOver
import kerfbook.field.platform.Phone
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertThrows
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import java.io.File
import java.io.FileNotFoundException

@RunWith(RobolectricTestRunner::class)
class FieldActivityTest {
    private fun onScreen(act: (OnScreen) -> Unit) = inFolder { folder ->
        val screen = OnScreen(folder)
        try {
            act(screen)
        } finally {
            screen.close()
        }
    }

    private fun started(screen: OnScreen) {
        screen.type("What is your farm, garden or orchard called?", "Low field")
        screen.tap("Start the book")
        screen.tap("New place")
        screen.type("Name", "Bed 1")
        screen.type("Length, m", "10")
        screen.type("Width, m", "1.2")
        screen.tap("Save")
        screen.tap("New load")
        screen.tap("mixed sawdust")
        screen.tap("No")
        screen.type("How many, or how much", "20")
        screen.type("Name for this load", "Mill")
        screen.tap("Take it in")
        screen.tap("Done")
    }

    @Test
    fun `a grower's first day, through touches`() = onScreen { screen ->
        started(screen)
        val before = screen.taps
        screen.tap("Put down")
        screen.tap("Bed 1")
        screen.tap("Mill")
        screen.tap("6")
        assertTrue(screen.says("The answer"))
        screen.tap("Save")
        assertTrue(screen.says("In the book"))
        assertTrue("${screen.taps - before} taps", screen.taps - before <= 6)
        val next = screen.taps
        screen.tap("Same again")
        screen.tap("Save")
        assertEquals(2, screen.taps - next)
        assertTrue(screen.says("In the book"))
        screen.tap("Book")
        assertTrue(screen.says("6 barrows"))
    }

    @Test
    fun `the core is never called on the main thread`() = onScreen { screen ->
        started(screen)
        listOf("Put down", "Look", "Places", "Book", "Settings").forEach(screen::tap)
        assertFalse(Looper.getMainLooper().thread in screen.clock.threads)
        val called =
            listOf("Open", "Today", "TodayForetold", "Places", "StartPutDown", "TakeIn", "Outline", "Entries", "People")
        assertEquals(emptyList<String>(), called - screen.callers.keys)
        val onMain = screen.callers.filterValues { Looper.getMainLooper().thread in it }.keys
        assertEquals(emptySet<String>(), onMain)
    }

    @Test
    fun `rotation loses nothing that was typed`() = onScreen { screen ->
        screen.type("What is your farm, garden or orchard called?", "Low field")
        screen.tap("Start the book")
        screen.tap("New place")
        screen.type("Name", "Bed under the wall")
        screen.tap("Row")
        screen.controller.recreate()
        screen.settle()
        assertTrue(screen.says("Bed under the wall"))
        @Suppress("DEPRECATION")
        screen.activity.onBackPressed()
        screen.settle()
        assertTrue(screen.says("Low field"))
    }

    @Test
    fun `a damaged book is told and left as it is`() = inFolder { folder ->
        val file = File(folder, "book").apply { writeText("this is no book") }
        val screen = OnScreen(folder)
        assertTrue(screen.says("The book does not open"))
        screen.tap("Try again")
        assertEquals("this is no book", file.readText())
        screen.close()
    }

    @Test
    fun `a grower puts the wrong bed right, and looks the next day`() = onScreen { screen ->
        started(screen)
        screen.tap("Places")
        screen.tap("New place")
        screen.type("Name", "Bed 2")
        screen.type("Length, m", "8")
        screen.type("Width, m", "1.2")
        screen.tap("Save")
        listOf("Put down", "Bed 1", "Mill", "6", "Save").forEach(screen::tap)
        screen.tap("Book")
        screen.tapLine("6 barrows")
        screen.tap("Bed 2")
        assertTrue(screen.texts().any { it.contains("6 barrows") && it.contains("Bed 2") })
        screen.clock.day = screen.clock.day.plusDays(1)
        screen.tap("Look")
        screen.tap("Bed 2")
        screen.tap("Some yellow")
        screen.tap("Save")
        assertTrue(screen.says("In the book"))
    }

    @Test
    fun `a pile is built of a load, read in two taps, turned and taken down`() = onScreen { screen ->
        started(screen)
        listOf("Places", "Piles", "New pile").forEach(screen::tap)
        screen.type("Name for this pile", "By the gate")
        screen.tap("Build the pile")
        assertTrue(screen.says("Say how much of at least one batch goes in."))
        screen.type("Mill", "10")
        assertTrue("told before it is built", screen.says("What it comes to"))
        screen.tap("Build the pile")
        screen.tap("By the gate")
        val before = screen.taps
        screen.tap("Read the heat")
        screen.type("Heat, °C", "58")
        screen.tap("Save, next zone")
        assertEquals(2, screen.taps - before)
        assertTrue(screen.says("58 °C"))
        screen.type("Heat, °C", "140")
        screen.tap("Save, next zone")
        assertTrue(screen.says("Are these degrees Fahrenheit?"))
        screen.type("Heat, °C", "76")
        screen.tap("Save, next zone")
        assertTrue("the caution stands there", screen.says("fire service"))
        screen.controller.recreate()
        screen.settle()
        screen.tap("Back")
        assertTrue(screen.views().any { it.contentDescription?.startsWith("Heat of By the gate") == true })
        screen.clock.day = screen.clock.day.plusDays(1)
        screen.tap("Today")
        screen.tapLine("Read the heat")
        screen.tap("Turn the pile")
        screen.tap("It is turned")
        screen.tap("Take the pile down")
        screen.type("Name for the batch", "Compost of April")
        screen.tap("It is a batch now")
        assertTrue(screen.says("reckoned, not measured"))
        screen.tap("Done")
        screen.tap("Put down")
        assertTrue(screen.says("Compost of April"))
    }

    @Test
    fun `a bed is walked round through a rotation and the end of the process, and a load put on it`() = onScreen { screen ->
        started(screen)
        screen.leave(true)
        screen.receiver(on = true)
        listOf("Places", "New place").forEach(screen::tap)
        screen.type("Name", "Field by the road")
        screen.tap("By walking")
        screen.tap("Start walking")
        screen.walk(0..60)
        assertTrue(screen.says("The loop is not closed"))
        screen.controller.recreate()
        screen.settle()
        screen.walk(61..100)
        screen.tap("Stop here")
        // The process ends: what was walked lies in its file.
        Phone.forgetWalk()
        screen.controller.recreate()
        screen.settle()
        screen.tap("Go on walking")
        screen.walk(101..172)
        assertTrue(screen.texts().joinToString(), screen.says("give or take"))
        screen.tap("Stop here")
        screen.tap("Save")
        assertTrue(screen.texts().joinToString(), screen.says("Field by the road"))
        screen.tapLine("Field by the road")
        screen.tap("Put down")
        screen.tap("Mill")
        screen.tap("6")
        screen.tap("Save")
        assertTrue(screen.says("In the book"))
    }

    @Test
    fun `a walk without leave, without a receiver or with poor fixes says what is so and offers the tape`() = onScreen { screen ->
        started(screen)
        screen.leave(false)
        listOf("Places", "New place", "By walking", "Start walking").forEach(screen::tap)
        screen.asked()
        assertTrue(screen.says("Without leave to know where the phone is"))
        screen.leave(true)
        screen.receiver(on = false)
        screen.tap("Start walking")
        assertTrue(screen.says("Location is switched off"))
        screen.receiver(on = true)
        screen.tap("Start walking")
        screen.walk(0..170, accuracy = 50f)
        assertTrue(screen.texts().joinToString(), screen.says("under open sky"))
        screen.receiver(on = false)
        assertTrue(screen.says("Location is switched off"))
        assertFalse("no place is made of it", screen.texts().contains("Save"))
        screen.tap("Forget this walk")
        screen.tap("Forget this walk")
        screen.tap("Measure with a tape")
        screen.type("Name", "Bed 9")
        screen.type("Length, m", "4")
        screen.type("Width, m", "1")
        screen.tap("Save")
        assertTrue(screen.says("Bed 9"))
    }

    @Test
    fun `a trial is scored blind by two people on one day, closed, and tells what it shows`() = onScreen { screen ->
        started(screen)
        listOf("Places", "Trials", "New trial").forEach(screen::tap)
        screen.type("Name of the trial", "Row ends")
        screen.type("First", "raw sawdust")
        screen.type("Second", "composted first")
        listOf("4", "Draw the plots", "Row ends", "Score").forEach(screen::tap)
        scored(screen, "10")
        listOf("Book", "Settings").forEach(screen::tap)
        screen.type("Somebody else", "Helper of the morning")
        screen.tap("Add this name")
        listOf("Places", "Trials", "Row ends", "Score").forEach(screen::tap)
        scored(screen, "15")
        screen.tap("Back")
        assertFalse("nothing says what a plot got", screen.texts().any { it.contains("composted") })
        screen.tap("Close the trial")
        screen.tap("Close the trial")
        assertTrue(screen.texts().joinToString(), screen.says("What it shows"))
    }

    /** Eight plots along the walk, in two taps each. */
    private fun scored(screen: OnScreen, yellow: String) {
        repeat(8) {
            val before = screen.taps
            screen.tap(yellow)
            screen.tap("Save, next plot")
            assertEquals(2, screen.taps - before)
        }
        assertTrue(screen.says("All plots are read for today."))
    }

    @Test
    fun `an orchard worker spreads twelve loads over rows with trees missing, and hands the book over`() = onScreen { screen ->
        screen.type("What is your farm, garden or orchard called?", "Low field")
        listOf("Start the book", "New place").forEach(screen::tap)
        screen.type("Name", "Old orchard")
        listOf("Tree rings", "Rows of trees").forEach(screen::tap)
        screen.type("Number of the first row", "12")
        screen.type("How many rows", "5")
        screen.type("Trees in each row", "29")
        screen.type("From tree to tree, m", "4")
        screen.type("From row to row, m, where you know it", "5")
        screen.type("Trunk to drip line, m", "1.5")
        screen.type("Gap kept at the trunk, cm", "15")
        screen.type("Missing trees, like 12/3 13/7", "12/3 13/7 14-2")
        screen.tap("Save")
        assertTrue("what is wrong stands beside the field", screen.says("like 12/3"))
        screen.type("Missing trees, like 12/3 13/7", "12/3 13/7 14/2")
        screen.tap("Save")
        listOf("New load", "hardwood wood chips", "No").forEach(screen::tap)
        screen.type("How many, or how much", "200")
        screen.type("Name for this load", "Chips")
        listOf("Take it in", "Done", "Put down", "Old orchard", "Chips", "10").forEach(screen::tap)
        screen.type("From row", "12")
        screen.type("From tree", "1")
        screen.type("To row", "12")
        screen.type("To tree", "40")
        assertTrue(screen.texts().joinToString(), screen.texts().any { it.contains("12/40") })
        screen.type("To tree", "13")
        assertTrue(screen.texts().joinToString(), screen.says("The answer"))
        screen.tap("In a ring under trees")
        screen.tap("Save")
        assertTrue(screen.texts().joinToString(), screen.says("In the book"))
        repeat(11) {
            val before = screen.taps
            screen.tap("Same again")
            screen.tap("Save")
            assertEquals(2, screen.taps - before)
            assertTrue(screen.texts().joinToString(), screen.says("In the book"))
        }
        screen.tap("Same again")
        assertTrue(screen.texts().joinToString(), screen.says("The last tree of this place has its load."))
        screen.tap("Book")
        assertTrue(screen.texts().joinToString(), screen.texts().any { it.contains("Old orchard") })
        screen.tap("Hand over a copy")
        handedOver(screen) { book ->
            val told = book.entries(null, 30u).entries.map { it.text }
            assertEquals(12, told.count { it.contains("10 barrows") })
        }
    }

    @Test
    fun `the process may end after each step of putting down, and nothing that was entered is lost`() = onScreen { screen ->
        started(screen)
        for (step in listOf("Put down", "Bed 1", "Mill", "6")) {
            screen.tap(step)
            screen.dies()
        }
        assertTrue("the answer is worked out again", screen.says("The answer"))
        screen.tap("Save")
        screen.dies()
        screen.tap("Book")
        assertEquals(1, screen.texts().count { it.contains("6 barrows") })
    }

    @Test
    fun `a disk that takes no more is told, and what was typed is saved once there is room`() = inFolder { folder ->
        val screen = OnScreen(folder)
        started(screen)
        listOf("Put down", "Bed 1", "Mill", "6").forEach(screen::tap)
        full(true)
        screen.tap("Save")
        full(false)
        assertFalse(screen.texts().joinToString(), screen.says("In the book"))
        assertTrue(screen.texts().joinToString(), screen.says("room"))
        screen.tap("Save")
        assertTrue(screen.texts().joinToString(), screen.says("In the book"))
        screen.tap("Book")
        assertEquals(1, screen.texts().count { it.contains("6 barrows") })
        screen.close()
    }

    /** No file of this process may grow beyond a page, as if the disk were full. */
    private fun full(yes: Boolean) {
        val most = if (yes) "4096:unlimited" else "unlimited:unlimited"
        val limit = ProcessBuilder("prlimit", "--pid", ProcessHandle.current().pid().toString(), "--fsize=$most")
        assertEquals(0, limit.inheritIO().start().waitFor())
    }

    @Test
    fun `with a clock set back what can have been is saved, what cannot is told beside it, and nothing is lost`() = onScreen { screen ->
        started(screen)
        val came = screen.clock.day
        screen.clock.day = came.plusDays(5)
        listOf("Put down", "Bed 1", "Mill", "6", "Save").forEach(screen::tap)
        screen.clock.day = came.plusDays(2)
        listOf("Today", "Put down", "Bed 1", "Mill", "3", "Save").forEach(screen::tap)
        assertTrue(screen.says("In the book"))
        screen.clock.day = came.minusDays(400)
        listOf("Today", "Put down", "Bed 1", "Mill", "2").forEach(screen::tap)
        assertTrue(screen.texts().joinToString(), screen.says("this would be before it"))
        screen.tap("Book")
        assertTrue(screen.says("6 barrows") && screen.says("3 barrows"))
    }

    @Test
    fun `a book of a newer version is told, and left as it is`() = inFolder { folder ->
        OnScreen(folder).also(::started).close()
        val file = File(folder, "book")
        SQLiteDatabase.openDatabase(file.path, null, SQLiteDatabase.OPEN_READWRITE).use { it.version = it.version + 1000 }
        val screen = OnScreen(folder)
        assertTrue(screen.texts().joinToString(), screen.says("later version"))
        screen.close()
    }

    @Test
    fun `who answers don't know to everything gets an answer and a question that would narrow it`() = onScreen { screen ->
        screen.type("What is your farm, garden or orchard called?", "Low field")
        screen.tap("Start the book")
        screen.tap("New place")
        screen.type("Name", "Somewhere")
        screen.tap("Area")
        screen.type("Area, m²", "12")
        screen.tap("Save")
        screen.tap("New load")
        screen.tap("wood of an unknown kind")
        screen.tap("Take it in")
        screen.tap("Done")
        screen.tap("Put down")
        screen.tap("Somewhere")
        screen.tap("wood of an unknown kind")
        screen.tap("4")
        assertTrue(screen.says("The answer"))
        assertTrue(screen.texts().joinToString(), screen.says("That would narrow the range by about"))
        screen.tap("Save")
        assertTrue(screen.says("In the book"))
    }

    @Test
    fun `who writes is named in the entry, in the language that was chosen`() = onScreen { screen ->
        started(screen)
        screen.tap("Book")
        screen.tap("Settings")
        screen.type("Somebody else", "Helper of the morning")
        screen.tap("Add this name")
        screen.tap("Español")
        assertTrue(screen.says("Ajustes"))
        listOf("Extender", "Bed 1", "Mill", "3", "Guardar").forEach(screen::tap)
        screen.tap("Libro")
        assertTrue(screen.texts().any { it.contains("Helper of the morning") })
    }

    @Test
    fun `a wrong size of a trailer is told beside its field, a right one counts`() = onScreen { screen ->
        started(screen)
        screen.tap("Book")
        screen.tap("Settings")
        screen.type("Trailer, m³", "1.2.3")
        screen.tap("Save")
        assertTrue(screen.texts().any { it.contains("1.2.3") && it.contains("no number") })
        screen.type("Trailer, m³", "1,5")
        screen.tap("Save")
        screen.tap("Put down")
        screen.tap("Bed 1")
        screen.tap("Mill")
        assertTrue(screen.says("Trailers"))
    }

    @Test
    fun `the book is handed over whole, for reading`() = onScreen { screen ->
        started(screen)
        screen.tap("Book")
        screen.tap("Hand over a copy")
        handedOver(screen) { book ->
            assertFalse(book.writable())
            assertTrue(book.entries(null, 30u).entries.any { it.text.contains("Mill") })
        }
    }

    /** Takes the copy that was handed over, as another app does. */
    private fun handedOver(screen: OnScreen, read: (FieldBook) -> Unit) {
        val chooser = shadowOf(screen.activity).nextStartedActivity
        @Suppress("DEPRECATION")
        val send = checkNotNull(chooser.getParcelableExtra<Intent>(Intent.EXTRA_INTENT))
        assertTrue(send.flags and Intent.FLAG_GRANT_READ_URI_PERMISSION != 0)
        val uri = checkNotNull(send.clipData).getItemAt(0).uri
        val provider = Robolectric.setupContentProvider(HandedOver::class.java, checkNotNull(uri.authority))
        val copy = File.createTempFile("kerfbook", "copy")
        ParcelFileDescriptor.AutoCloseInputStream(provider.openFile(uri, "r")).use { from ->
            copy.outputStream().use { from.copyTo(it) }
        }
        FieldBook.open(copy.path, TestKeys(), TestClock(), ENGLISH).use(read)
        copy.delete()
        assertThrows(SecurityException::class.java) { provider.openFile(uri, "w") }
        val out = uri.buildUpon().path("../settings.xml").build()
        assertThrows(FileNotFoundException::class.java) { provider.openFile(out, "r") }
    }
}
