package kerfbook.field

import android.graphics.Bitmap
import android.graphics.Color
import java.io.File
import kotlin.math.abs

/**
 * What screens looked like when somebody last looked at them: the light of each picture in coarse cells, a line a picture.
 * A screen that changes is named, so that it is looked at again; `KERFBOOK_UPDATE=always` then takes it as it is.
 */
class Likeness(private val file: File, private val dress: String) {
    private val known = if (file.exists()) file.readLines().associate { it.substringBeforeLast(' ') to it.substringAfterLast(' ') } else emptyMap()
    private val seen = linkedMapOf<String, String>()

    fun see(name: String, picture: Bitmap) {
        seen["$dress $name"] = cells(picture)
    }

    /** Pictures that look otherwise, are new or are gone; none after they were taken as they are. */
    fun faults(): List<String> {
        val own = known.filterKeys { it.substringBefore(' ') == dress }
        val changed = seen.filter { (name, cells) -> own[name]?.let { differ(it, cells) } ?: true }.keys
        val gone = own.keys - seen.keys
        if (changed.isEmpty() && gone.isEmpty()) return emptyList()
        if (System.getenv("KERFBOOK_UPDATE") == "always") {
            val all = (known - own.keys) + own.filterKeys { it !in gone } + seen.filterKeys { it in changed }
            file.writeText(all.toSortedMap().map { (name, cells) -> "$name $cells\n" }.joinToString(""))
            return emptyList()
        }
        return changed.map { "$it: looks otherwise than when it was last looked at" } + gone.map { "$it: is not drawn any more" }
    }

    /** More cells than a moved edge touches, by more than a step of light. */
    private fun differ(one: String, other: String): Boolean =
        one.length != other.length || one.indices.count { abs(one[it].digitToInt(STEPS) - other[it].digitToInt(STEPS)) > 1 } > CELLS

    private fun cells(picture: Bitmap): String {
        val (width, height) = picture.width to picture.height
        val (across, down) = if (width < height) SHORT to LONG else LONG to SHORT
        val pixels = IntArray(width * height).also { picture.getPixels(it, 0, width, 0, 0, width, height) }
        val sums = LongArray(across * down)
        for (y in 0 until height) {
            val row = y * down / height * across
            for (x in 0 until width) {
                val pixel = pixels[y * width + x]
                sums[row + x * across / width] += (Color.red(pixel) + Color.green(pixel) + Color.blue(pixel)).toLong()
            }
        }
        val most = 3L * 256 * (width.toLong() * height / (across * down) + 1)
        return sums.joinToString("") { minOf(it * STEPS / most, STEPS - 1L).toInt().toString(STEPS) }
    }

    private companion object {
        const val SHORT = 10
        const val LONG = 20
        const val STEPS = 16
        const val CELLS = 2
    }
}
