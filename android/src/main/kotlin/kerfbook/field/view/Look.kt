package kerfbook.field.view

import android.content.Context
import android.content.res.ColorStateList
import android.graphics.drawable.Drawable
import android.graphics.drawable.GradientDrawable
import android.graphics.drawable.StateListDrawable
import android.util.TypedValue
import kerfbook.field.R

/** Measures and roles: everything drawn takes its colours and sizes from here. */
class Look(val context: Context) {
    val ground = context.getColor(R.color.ground)
    val surface = context.getColor(R.color.surface)
    val ink = context.getColor(R.color.ink)
    val quiet = context.getColor(R.color.quiet)
    val line = context.getColor(R.color.line)
    val accent = context.getColor(R.color.accent)
    val onAccent = context.getColor(R.color.on_accent)
    val pressed = context.getColor(R.color.pressed)
    val chosen = context.getColor(R.color.chosen)
    val onChosen = context.getColor(R.color.on_chosen)
    val warn = context.getColor(R.color.warn)
    val warnGround = context.getColor(R.color.warn_ground)

    fun dp(value: Int): Int =
        TypedValue.applyDimension(TypedValue.COMPLEX_UNIT_DIP, value.toFloat(), context.resources.displayMetrics).toInt()

    /** A plain box with round corners; no ripple, so that gloves see at once what they hit. */
    fun box(fill: Int, edge: Int? = null, round: Int = ROUND): Drawable = GradientDrawable().apply {
        setColor(fill)
        cornerRadius = dp(round).toFloat()
        edge?.let { setStroke(dp(EDGE), it) }
    }

    /** The same, darker while a finger is on it. */
    fun touchable(fill: Int, edge: Int? = null, down: Int = pressed): Drawable = StateListDrawable().apply {
        addState(intArrayOf(android.R.attr.state_pressed), box(down, edge))
        addState(intArrayOf(android.R.attr.state_focused), box(fill, ink))
        addState(intArrayOf(), box(fill, edge))
    }

    fun icon(resource: Int, colour: Int): Drawable = checkNotNull(context.getDrawable(resource)).mutate().apply {
        setTintList(ColorStateList.valueOf(colour))
        setBounds(0, 0, dp(ICON), dp(ICON))
    }

    companion object {
        const val ROUND = 14
        const val EDGE = 2
        const val ICON = 24

        /** The least that a gloved finger is offered, dp. */
        const val TARGET = 56
        const val GAP = 8
        const val MARGIN = 16
    }
}
