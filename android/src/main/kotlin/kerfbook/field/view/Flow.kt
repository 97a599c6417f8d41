package kerfbook.field.view

import android.content.Context
import android.view.View
import android.view.ViewGroup

/** Children side by side, in as many rows as they need; at large type nothing is cut. */
class Flow(context: Context, private val gap: Int, private val stretch: Boolean = false) : ViewGroup(context) {
    private class Row(val children: MutableList<View> = mutableListOf(), var width: Int = 0, var height: Int = 0)

    private var rows = emptyList<Row>()

    override fun onMeasure(widthMeasureSpec: Int, heightMeasureSpec: Int) {
        val width = MeasureSpec.getSize(widthMeasureSpec)
        val room = width - paddingLeft - paddingRight
        val made = mutableListOf(Row())
        for (index in 0 until childCount) {
            val child = getChildAt(index)
            if (child.visibility == GONE) continue
            child.measure(MeasureSpec.makeMeasureSpec(room, MeasureSpec.AT_MOST), UNBOUND)
            var row = made.last()
            val needed = row.width + (if (row.children.isEmpty()) 0 else gap) + child.measuredWidth
            if (row.children.isNotEmpty() && needed > room) {
                row = Row().also { made += it }
            }
            row.width += (if (row.children.isEmpty()) 0 else gap) + child.measuredWidth
            row.height = maxOf(row.height, child.measuredHeight)
            row.children += child
        }
        rows = made.filter { it.children.isNotEmpty() }
        if (stretch) rows.forEach { fill(it, room) }
        val height = rows.sumOf { it.height } + gap * maxOf(0, rows.size - 1) + paddingTop + paddingBottom
        setMeasuredDimension(width, resolveSize(height, heightMeasureSpec))
    }

    /** Shares what is left of a row among its children. */
    private fun fill(row: Row, room: Int) {
        val more = (room - row.width) / row.children.size
        for (child in row.children) {
            child.measure(exactly(child.measuredWidth + more), UNBOUND)
        }
        row.height = row.children.maxOf { it.measuredHeight }
    }

    override fun onLayout(changed: Boolean, l: Int, t: Int, r: Int, b: Int) {
        var top = paddingTop
        for (row in rows) {
            var left = paddingLeft
            for (child in row.children) {
                child.measure(exactly(child.measuredWidth), exactly(if (stretch) row.height else child.measuredHeight))
                val height = child.measuredHeight
                child.layout(left, top, left + child.measuredWidth, top + height)
                left += child.measuredWidth + gap
            }
            top += row.height + gap
        }
    }

    private companion object {
        val UNBOUND = MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED)

        fun exactly(size: Int) = MeasureSpec.makeMeasureSpec(size, MeasureSpec.EXACTLY)
    }
}
