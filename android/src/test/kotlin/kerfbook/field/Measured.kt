package kerfbook.field

import android.graphics.Bitmap
import android.graphics.Rect
import android.view.View
import android.view.ViewGroup
import android.widget.TextView
import kotlin.math.pow

/** What is measured in a picture and in the tree of views behind it. */
class Measured(private val bitmap: Bitmap, private val views: List<View>, private val density: Float) {
    /** Everything that falls short, in words. */
    fun faults(): List<String> = views.flatMap { view ->
        val seen = Rect()
        if (!view.getGlobalVisibleRect(seen) || seen.isEmpty) return@flatMap emptyList()
        listOfNotNull(
            target(view, seen),
            (view as? TextView)?.let { clipped(it) },
            (view as? TextView)?.let { faint(it, seen) },
            named(view),
        )
    } + overlaps()

    private fun target(view: View, seen: Rect): String? {
        if (!view.isClickable || view !is TextView && view !is ViewGroup) return null
        val least = LEAST_DP * density - 1
        // Where it runs out of the screen only the part outside is missing.
        val whole = view.width >= least && view.height >= least
        return if (whole) null else "${told(view)}: ${seen.width() / density} x ${view.height / density} dp is small"
    }

    private fun clipped(view: TextView): String? {
        val layout = view.layout ?: return null
        val room = view.width - view.totalPaddingLeft - view.totalPaddingRight
        val tall = view.height - view.totalPaddingTop - view.totalPaddingBottom
        val wide = (0 until layout.lineCount).maxOfOrNull { layout.getLineMax(it) } ?: 0f
        // A word broken in the middle is cut for the reader as well.
        val broken = (0 until layout.lineCount - 1).any {
            val end = layout.getLineEnd(it)
            end > 0 && end < view.text.length && view.text[end - 1].isLetter() && view.text[end].isLetter()
        }
        return when {
            view is android.widget.EditText -> null
            wide > room + 1 -> "${told(view)}: text is wider than its room"
            layout.height > tall + 1 -> "${told(view)}: text is higher than its room"
            broken -> "${told(view)}: a word is broken"
            else -> null
        }
    }

    /** Contrast of the text as it was drawn: the commonest colour of the box against the one farthest from it. */
    private fun faint(view: TextView, seen: Rect): String? {
        if (view.text.isEmpty() || seen.height() < view.height || view is android.widget.EditText) return null
        val box = Rect(
            (seen.left + view.totalPaddingLeft).coerceIn(0, bitmap.width - 1),
            (seen.top + view.totalPaddingTop).coerceIn(0, bitmap.height - 1),
            (seen.right - view.totalPaddingRight).coerceIn(1, bitmap.width),
            (seen.bottom - view.totalPaddingBottom).coerceIn(1, bitmap.height),
        )
        if (box.width() < 2 || box.height() < 2) return null
        val pixels = IntArray(box.width() * box.height())
        bitmap.getPixels(pixels, 0, box.width(), box.left, box.top, box.width(), box.height())
        val counts = pixels.toList().groupingBy { it }.eachCount()
        val ground = counts.maxByOrNull { it.value }?.key ?: return null
        val best = counts.keys.maxOf { contrast(it, ground) }
        return if (best >= LEAST_CONTRAST) null else "${told(view)}: contrast ${"%.1f".format(best)} to 1"
    }

    private fun named(view: View): String? {
        if (!view.isClickable || view is android.widget.EditText) return null
        val own = (view as? TextView)?.text.isNullOrEmpty() && view.contentDescription.isNullOrEmpty()
        return if (own) "${told(view)}: says nothing to a screen reader" else null
    }

    /** Texts that lie on each other. */
    private fun overlaps(): List<String> {
        val boxes = views.filterIsInstance<TextView>().filter { it.text.isNotEmpty() }.mapNotNull { view ->
            Rect().takeIf { view.getGlobalVisibleRect(it) && !it.isEmpty }?.let { view to it }
        }
        return boxes.flatMapIndexed { index, (view, box) ->
            boxes.drop(index + 1).filter { (_, other) -> Rect.intersects(box, other) }
                .map { (other, _) -> "${told(view)} lies on ${told(other)}" }
        }
    }

    private fun told(view: View): String =
        "'${((view as? TextView)?.text ?: view.contentDescription ?: view.javaClass.simpleName).toString().take(TOLD)}'"

    companion object {
        const val LEAST_DP = 56
        const val LEAST_CONTRAST = 7.0
        private const val TOLD = 30

        /** WCAG 2.1, relative luminance and contrast ratio. */
        fun contrast(a: Int, b: Int): Double {
            val (light, dark) = listOf(luminance(a), luminance(b)).sortedDescending()
            return (light + 0.05) / (dark + 0.05)
        }

        private fun luminance(colour: Int): Double {
            fun part(shift: Int): Double {
                val value = (colour shr shift and 0xff) / 255.0
                return if (value <= 0.03928) value / 12.92 else ((value + 0.055) / 1.055).pow(2.4)
            }
            return 0.2126 * part(16) + 0.7152 * part(8) + 0.0722 * part(0)
        }
    }
}
