package kerfbook.field

import android.os.Looper
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import java.io.File

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
        assertFalse(Looper.getMainLooper().thread in screen.clock.threads)
        assertTrue(screen.clock.threads.isNotEmpty())
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
}
