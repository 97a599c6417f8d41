package kerfbook.field.view

import android.view.View
import android.widget.LinearLayout
import kerfbook.field.presenter.Event

/** The views of one screen: built once, then shown as the state says. */
abstract class Page<S>(protected val look: Look, protected val send: (Event) -> Unit) {
    /** What scrolls. */
    val content: LinearLayout = look.column()

    /** What stays in reach at the lower edge: the one thing to do. */
    open val action: View? = null

    abstract fun show(state: S)

    protected fun words(resource: Int): String = look.context.getString(resource)

    /** Trouble that belongs to no field. */
    protected val trouble = look.text(Sizes.BODY, look.warn, bold = true).apply {
        background = look.box(look.warnGround, look.warn)
        val inside = look.dp(Look.MARGIN)
        setPadding(inside, inside, inside, inside)
        visibility = View.GONE
    }

    protected fun tell(why: String) {
        trouble.text = why
        trouble.visibility = if (why.isEmpty()) View.GONE else View.VISIBLE
    }
}

internal fun View.shown(yes: Boolean) {
    visibility = if (yes) View.VISIBLE else View.GONE
}
