package kerfbook.field.view

import android.annotation.SuppressLint
import android.graphics.Canvas
import android.graphics.DashPathEffect
import android.graphics.Path
import android.graphics.Typeface
import android.view.View
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.FrameLayout
import android.widget.HorizontalScrollView
import kerfbook.core.DrawingView
import kerfbook.core.End
import kerfbook.core.Paint
import kerfbook.core.Shape
import kerfbook.core.Spot
import android.graphics.Paint as Brush

/** A picture of the core, as wide as its room; at larger type it is larger and is pushed aside with a finger. */
class Drawing(private val look: Look) : HorizontalScrollView(look.context) {
    private val canvas = Painted(look)

    init {
        addView(canvas, FrameLayout.LayoutParams(WRAP_CONTENT, WRAP_CONTENT))
        isFillViewport = false
    }

    fun show(drawing: DrawingView) {
        canvas.drawing = drawing
        canvas.contentDescription = drawing.says
        canvas.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_YES
        canvas.requestLayout()
        canvas.invalidate()
    }

    override fun onMeasure(widthMeasureSpec: Int, heightMeasureSpec: Int) {
        canvas.room = MeasureSpec.getSize(widthMeasureSpec)
        super.onMeasure(widthMeasureSpec, heightMeasureSpec)
    }
}

@SuppressLint("ViewConstructor")
private class Painted(private val look: Look) : View(look.context) {
    var drawing: DrawingView? = null

    /** Width that there is, pixels. */
    var room = 0
    private val brush = Brush(Brush.ANTI_ALIAS_FLAG)

    private fun zoom(of: DrawingView): Float =
        room / of.width * maxOf(1f, look.context.resources.configuration.fontScale)

    override fun onMeasure(widthMeasureSpec: Int, heightMeasureSpec: Int) {
        val of = drawing ?: return setMeasuredDimension(0, 0)
        val zoom = zoom(of)
        setMeasuredDimension((of.width * zoom).toInt(), (of.height * zoom).toInt())
    }

    override fun onDraw(canvas: Canvas) {
        val of = drawing ?: return
        canvas.save()
        zoom(of).let { canvas.scale(it, it) }
        of.shapes.forEach { draw(canvas, it) }
        canvas.restore()
    }

    private fun draw(canvas: Canvas, shape: Shape) {
        brush.reset()
        brush.isAntiAlias = true
        when (shape) {
            is Shape.Line -> {
                stroke(shape.paint, shape.width)
                if (shape.dash.isNotEmpty()) brush.pathEffect = DashPathEffect(shape.dash.toFloatArray(), 0f)
                canvas.drawPath(path(shape.through), brush)
            }
            is Shape.Plane -> {
                brush.color = colour(shape.paint)
                canvas.drawPath(path(shape.corners).apply { close() }, brush)
            }
            is Shape.Circle -> {
                if (!shape.filled) {
                    brush.color = look.surface
                    canvas.drawCircle(shape.at.x, shape.at.y, shape.radius, brush)
                    stroke(shape.paint, shape.width)
                } else {
                    brush.color = colour(shape.paint)
                }
                canvas.drawCircle(shape.at.x, shape.at.y, shape.radius, brush)
            }
            is Shape.Text -> text(canvas, shape)
        }
    }

    private fun text(canvas: Canvas, shape: Shape.Text) {
        brush.textSize = shape.size
        brush.typeface = if (shape.bold) Typeface.DEFAULT_BOLD else Typeface.DEFAULT
        brush.textAlign = when (shape.end) {
            End.START -> Brush.Align.LEFT
            End.MIDDLE -> Brush.Align.CENTER
            End.LAST -> Brush.Align.RIGHT
        }
        // A rim of the ground's colour: lines may pass behind.
        stroke(Paint.INK, RIM)
        brush.color = look.surface
        canvas.drawText(shape.text, shape.at.x, shape.at.y, brush)
        brush.style = Brush.Style.FILL
        brush.color = colour(shape.paint)
        canvas.drawText(shape.text, shape.at.x, shape.at.y, brush)
    }

    private fun stroke(paint: Paint, width: Float) {
        brush.style = Brush.Style.STROKE
        brush.strokeWidth = width
        brush.strokeJoin = Brush.Join.ROUND
        brush.color = colour(paint)
    }

    private fun path(spots: List<Spot>) = Path().apply {
        spots.forEachIndexed { at, spot -> if (at == 0) moveTo(spot.x, spot.y) else lineTo(spot.x, spot.y) }
    }

    private fun colour(paint: Paint): Int = when (paint) {
        Paint.INK -> look.ink
        Paint.QUIET -> look.quiet
        Paint.FAINT -> look.line
        Paint.ACCENT -> look.accent
        Paint.WARN -> look.warn
        Paint.PLANE -> look.chosen
    }

    private companion object {
        const val RIM = 3f
    }
}
