package kerfbook.field

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.view.View
import android.widget.ScrollView
import kerfbook.field.view.Drawing
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.Config
import java.io.File

/** How a phone is set: language, light, size of type, the way it is held. */
class Dress(val name: String, val qualifiers: String, val scale: Float) {
    val wide: Boolean get() = "land" in qualifiers
}

/** Every screen, in every dress: drawn, measured, and kept as pictures to look at. */
@RunWith(RobolectricTestRunner::class)
class PicturesTest {
    @Test
    fun `every screen in every dress is readable`() {
        val gallery = Gallery()
        DRESSES.forEach(gallery::dressed)
        assertEquals("", gallery.faults.joinToString("\n"))
    }

    private companion object {
        const val PORTRAIT = "w360dp-h780dp-port"
        const val LANDSCAPE = "w780dp-h360dp-land"
        val DRESSES = listOf(
            Dress("en-light", "en-rGB-$PORTRAIT-notnight-480dpi", 1f),
            Dress("es-dark", "es-rES-$PORTRAIT-night-480dpi", 1f),
            Dress("en-dark-200", "en-rGB-$PORTRAIT-night-480dpi", 2f),
            Dress("es-light-200", "es-rES-$PORTRAIT-notnight-480dpi", 2f),
            Dress("en-dark-land", "en-rGB-$LANDSCAPE-night-480dpi", 1f),
            Dress("es-light-land-200", "es-rES-$LANDSCAPE-notnight-480dpi", 2f),
        )
    }
}

/** The oldest Android. A class of its own: the core's callbacks belong to one set of loaded classes in a process. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [26])
class OldestAndroidTest {
    @Test
    fun `the oldest Android draws the same screens`() {
        val gallery = Gallery()
        gallery.dressed(Dress("api26", "en-rGB-w360dp-h780dp-port-notnight-480dpi", 1f))
        assertEquals("", gallery.faults.joinToString("\n"))
    }
}

/** Plays a first day on screens and keeps what they look like. */
private class Gallery {
    val faults = mutableListOf<String>()

    fun dressed(dress: Dress) = inFolder { folder ->
        RuntimeEnvironment.setQualifiers(dress.qualifiers)
        RuntimeEnvironment.setFontScale(dress.scale)
        val screen = OnScreen(folder)
        val say: (Int) -> String = { screen.activity.getString(it) }
        val taken = linkedMapOf<String, Bitmap>()
        val likeness = Likeness(File(LIKENESS), dress.name)
        fun shot(name: String) {
            val picture = keep(screen, dress, name)
            taken[name] = picture
            // A trial is drawn by lot, each time anew.
            if (name.take(2).toInt() !in DRAWN_BY_LOT) likeness.see(name, picture)
        }
        shot("01-found")
        screen.type(say(R.string.found_name), "Invented holding, lower field")
        screen.tap(say(R.string.found_start))
        shot("02-today-empty")
        screen.tap(say(R.string.new_place))
        screen.tap(say(R.string.save))
        shot("03-new-place-wrong")
        screen.tap(say(R.string.by_sides))
        shot("03a-new-place-sides")
        screen.tap(say(R.string.ground_rings))
        screen.tap(say(R.string.by_rows))
        shot("03b-new-place-rows")
        screen.tap(say(R.string.ground_bed))
        screen.tap(say(R.string.by_tape))
        screen.type(say(R.string.place_name), "Bed under the south wall")
        screen.type(say(R.string.length_m), "10")
        screen.type(say(R.string.width_m), "1.2")
        screen.tap(say(R.string.save))
        screen.tap(say(R.string.places))
        shot("04-places")
        screen.tap(say(R.string.places_map))
        shot("04c-places-map")
        screen.tap(say(R.string.places_list))
        screen.tap("Bed under the south wall")
        shot("04a-place")
        screen.tap(say(R.string.new_crop))
        screen.type(say(R.string.crop_name), "tomato")
        screen.tap(say(R.string.hunger_middling))
        screen.type(say(R.string.crop_weeks), "16")
        shot("04b-new-crop")
        screen.tap(say(R.string.save))
        screen.tap(say(R.string.today))
        screen.tap(say(R.string.new_load))
        screen.tap(screen.texts().first { it == "mixed sawdust" || it == "serrín mezclado" || it.contains("serrín") })
        shot("05-new-load")
        screen.type(say(R.string.load_amount), "20")
        screen.type(say(R.string.load_label), "Mill, April")
        screen.tap(say(R.string.load_take_in))
        shot("06-load-taken")
        screen.tap(say(R.string.done))
        screen.tap(say(R.string.put_down))
        shot("07-put-down")
        screen.tap("Bed under the south wall")
        screen.tap("Mill, April")
        screen.tap("6")
        scroll(screen, say(R.string.answer))
        shot("08-answer")
        screen.tap(say(R.string.save))
        shot("09-saved")
        screen.clock.day = screen.clock.day.plusDays(21)
        screen.tap(say(R.string.today))
        shot("09a-today-tasks")
        screen.tap(say(R.string.look))
        shot("10-look")
        screen.tap(say(R.string.book))
        shot("11-book")
        screen.tapLine("Mill, April")
        shot("12-book-entry")
        screen.tap(say(R.string.settings))
        shot("13-settings")
        walk(screen, say, ::shot)
        rows(screen, say, ::shot)
        pile(screen, say, ::shot)
        trial(screen, say, ::shot)
        screen.close()
        faults += likeness.faults()
        sheet("sheet-${dress.name}", taken.values.toList(), if (dress.wide) 3 else 6)
        sheet("strip-${dress.name}", STRIP.map(taken::getValue), STRIP.size)
    }

    /** A walk round a field, from the first fix to its name. */
    private fun walk(screen: OnScreen, say: (Int) -> String, shot: (String) -> Unit) {
        screen.leave(true)
        screen.receiver(on = true)
        screen.tap(say(R.string.places))
        screen.tap(say(R.string.new_place))
        screen.tap(say(R.string.by_walk))
        shot("23-walk")
        screen.tap(say(R.string.walk_start))
        screen.walk(0..90)
        shot("24-walk-half")
        screen.receiver(on = false)
        shot("25-walk-off")
        screen.receiver(on = true)
        screen.tap(say(R.string.walk_go_on))
        screen.walk(91..170)
        screen.tap(say(R.string.walk_stop))
        scroll(screen, screen.views().first { it is Drawing })
        shot("26-walk-done")
        screen.type(say(R.string.place_name), "Field by the road")
        screen.tap(say(R.string.save))
    }

    /** Rows of trees, and a load along some of them. */
    private fun rows(screen: OnScreen, say: (Int) -> String, shot: (String) -> Unit) {
        screen.tap(say(R.string.places))
        screen.tap(say(R.string.new_place))
        screen.type(say(R.string.place_name), "Old orchard")
        screen.tap(say(R.string.ground_rings))
        screen.tap(say(R.string.by_rows))
        screen.type(say(R.string.first_row), "12")
        screen.type(say(R.string.rows), "3")
        screen.type(say(R.string.row_trees), "14")
        screen.type(say(R.string.spacing_m), "4")
        screen.type(say(R.string.row_spacing_m), "5")
        screen.type(say(R.string.radius_m), "1.5")
        screen.type(say(R.string.gap_cm), "15")
        screen.type(say(R.string.missing_trees), "12/3 13/7")
        screen.tap(say(R.string.save))
        screen.tap(say(R.string.places_map))
        shot("27-map-of-all")
        screen.tap(say(R.string.put_down))
        screen.tap("Old orchard")
        screen.tap("Mill, April")
        screen.tap("2")
        screen.type(say(R.string.run_from), "12")
        screen.type(say(R.string.run_from_tree), "9")
        screen.type(say(R.string.run_to), "13")
        screen.type(say(R.string.run_to_tree), "30")
        scroll(screen, say(R.string.run))
        shot("28-put-down-no-tree")
        screen.type(say(R.string.run_to_tree), "10")
        scroll(screen, say(R.string.answer))
        shot("29-put-down-run")
    }

    /** A pile from nothing to the batch that it becomes. */
    private fun pile(screen: OnScreen, say: (Int) -> String, shot: (String) -> Unit) {
        screen.tap(say(R.string.places))
        screen.tap(say(R.string.piles))
        shot("30-piles-none")
        screen.tap(say(R.string.new_pile))
        screen.tap(say(R.string.pile_build))
        shot("31-new-pile-wrong")
        screen.type(say(R.string.pile_name), "Pile behind the barn")
        screen.type("Mill, April", "10")
        screen.tap(say(R.string.pile_rule_choose))
        screen.tap("us-organic-windrow")
        scroll(screen, say(R.string.pile_comes_to))
        shot("32-new-pile-comes-to")
        screen.tap(say(R.string.pile_build))
        shot("33-piles")
        screen.tap("Pile behind the barn")
        shot("34-pile-unread")
        for (day in 0 until ROUND) {
            screen.tap(say(R.string.read_heat))
            if (day == 0) shot("35-heat")
            for (zone in 0 until 3) {
                screen.type(say(R.string.heat_c), "${(28 + 6 * minOf(day, 6) - 7 * zone + if (day == ROUND - 1) 11 else 0)}")
                if (day == ROUND - 1 && zone == 0) {
                    screen.tap(say(R.string.heat_more))
                    screen.tap(say(R.string.yes))
                    shot("36-heat-smoke")
                    screen.tap(say(R.string.no))
                }
                screen.tap(say(R.string.heat_next))
                if (day == ROUND - 1 && zone == 0) shot("37-heat-hot")
            }
            screen.tap(say(R.string.back))
            if (day == 5) {
                screen.tap(say(R.string.turn_pile))
                shot("38-turn")
                screen.tap(say(R.string.turn_save))
            }
            screen.clock.day = screen.clock.day.plusDays(1)
        }
        shot("39-pile")
        scroll(screen, screen.views().first { it is Drawing })
        shot("39a-pile-chart")
        scroll(screen, say(R.string.pile_state))
        shot("40-pile-state")
        screen.tap(say(R.string.today))
        shot("41-today-pile")
        screen.tapLine(say(R.string.read_heat))
        screen.tap(say(R.string.finish_pile))
        shot("42-finish")
        screen.type(say(R.string.finish_name), "Compost of spring")
        screen.tap(say(R.string.finish_save))
        shot("43-finished")
        screen.tap(say(R.string.done))
    }

    /** A trial from nothing to what it shows. */
    private fun trial(screen: OnScreen, say: (Int) -> String, shot: (String) -> Unit) {
        screen.tap(say(R.string.places))
        screen.tap(say(R.string.trials))
        shot("14-trials-none")
        screen.tap(say(R.string.new_trial))
        screen.type(say(R.string.trial_name), "Beds by the gate")
        screen.type(say(R.string.trial_a), "raw sawdust worked in")
        screen.tap(say(R.string.trial_draw))
        shot("15-new-trial-wrong")
        screen.type(say(R.string.trial_b), "composted first")
        screen.type(say(R.string.trial_c), "on top over compost")
        screen.tap("4")
        screen.tap(say(R.string.trial_draw))
        screen.tap("Beds by the gate")
        shot("16-trial")
        screen.tap(say(R.string.score))
        shot("17-score")
        var left = 12
        while (left-- > 0) {
            screen.tap(if (left % 3 == 0) "35" else "10")
            if (left == 9) shot("18-score-chosen")
            screen.tap(say(R.string.score_next))
        }
        shot("19-score-done")
        screen.tap(say(R.string.back))
        screen.tap(say(R.string.trial_layout))
        shot("20-trial-asks")
        screen.tap(say(R.string.trial_layout_open))
        shot("21-trial-layout")
        screen.tap(say(R.string.trial_close))
        screen.tap(say(R.string.trial_close))
        shot("22-trial-shows")
        val charts = screen.views().filterIsInstance<Drawing>()
        scroll(screen, charts.first())
        shot("22a-trial-dots")
        scroll(screen, charts.last())
        shot("22b-trial-left")
    }

    private fun keep(screen: OnScreen, dress: Dress, name: String): Bitmap {
        val picture = screen.picture()
        val density = screen.activity.resources.displayMetrics.density
        Measured(picture, screen.views(), density).faults().forEach { faults += "${dress.name} $name: $it" }
        write(File(FOLDER, "${dress.name}/$name.png"), picture)
        return picture
    }

    private fun scroll(screen: OnScreen, words: String) =
        scroll(screen, screen.views().first { (it as? android.widget.TextView)?.text?.toString() == words })

    private fun scroll(screen: OnScreen, view: View) {
        // A field that is being typed in is kept in sight.
        screen.activity.currentFocus?.clearFocus()
        val scroll = screen.views().filterIsInstance<ScrollView>().last { below -> view in all(below) }
        val at = IntArray(2).also(view::getLocationInWindow)[1] - IntArray(2).also(scroll::getLocationInWindow)[1]
        scroll.scrollBy(0, at - 40)
        screen.settle()
    }

    /** Screens side by side, smaller. */
    private fun sheet(name: String, pictures: List<Bitmap>, across: Int) {
        val (width, height) = pictures.first().run { width / SMALL to height / SMALL }
        val down = (pictures.size + across - 1) / across
        val sheet = Bitmap.createBitmap(across * (width + GAP), down * (height + GAP), Bitmap.Config.ARGB_8888)
        val canvas = Canvas(sheet).apply { drawColor(Color.GRAY) }
        pictures.forEachIndexed { index, picture ->
            val small = Bitmap.createScaledBitmap(picture, width, height, true)
            canvas.drawBitmap(small, index % across * (width + GAP).toFloat(), index / across * (height + GAP).toFloat(), null)
        }
        write(File(FOLDER, "$name.png"), sheet)
    }

    private fun write(file: File, picture: Bitmap) {
        file.parentFile?.mkdirs()
        file.outputStream().use { picture.compress(Bitmap.CompressFormat.PNG, 100, it) }
    }

    private companion object {
        val FOLDER = File(System.getProperty("kerfbook.pictures") ?: "target/pictures")
        const val LIKENESS = "src/test/resources/likeness.txt"
        val DRAWN_BY_LOT = 16..22
        /** Some for who reads about it: what is to be done, the map, a pile, a trial. */
        val STRIP = listOf("09a-today-tasks", "27-map-of-all", "39a-pile-chart", "22a-trial-dots")
        const val SMALL = 3

        /** Days on which the pile is read. */
        const val ROUND = 9
        const val GAP = 12
    }
}
