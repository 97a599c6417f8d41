package kerfbook.field.view

import android.content.Context
import android.graphics.Typeface
import android.text.Editable
import android.text.InputType
import android.text.TextWatcher
import android.util.TypedValue
import android.view.Gravity
import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.EditText
import android.widget.LinearLayout
import android.widget.TextView
import kerfbook.field.R

/** Says to a screen reader what a drawn thing is. */
private class Spoken(private val role: String, private val choice: Boolean = false) : View.AccessibilityDelegate() {
    override fun onInitializeAccessibilityNodeInfo(host: View, info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(host, info)
        info.className = role
        if (choice) {
            info.isCheckable = true
            info.isChecked = host.isSelected
        }
    }
}

/** Text in one of four sizes, all of them readable at arm's length. */
internal fun Look.text(size: Float, colour: Int = ink, bold: Boolean = false): TextView = TextView(context).apply {
    setTextSize(TypedValue.COMPLEX_UNIT_SP, size)
    setTextColor(colour)
    if (bold) typeface = Typeface.DEFAULT_BOLD
    setLineSpacing(0f, LINE)
}

internal fun Look.title(words: CharSequence) = text(TITLE, bold = true).apply {
    text = words
    accessibilityHeading()
}

internal fun Look.heading(words: CharSequence) = text(HEADING, bold = true).apply {
    text = words
    accessibilityHeading()
}

@kerfbook.field.platform.ChecksApi
private fun View.accessibilityHeading() {
    if (android.os.Build.VERSION.SDK_INT >= android.os.Build.VERSION_CODES.P) isAccessibilityHeading = true
}

internal fun Look.body(words: CharSequence = "") = text(BODY).apply { text = words }

internal fun Look.quietly(words: CharSequence = "") = text(QUIET, quiet).apply { text = words }

/** The one thing to do next. */
internal fun Look.primary(words: Int, press: () -> Unit): TextView = text(BODY, onAccent, bold = true).apply {
    setText(words)
    background = touchable(accent, down = ink)
    pressable(press)
}

/** Whether the one thing can be done yet; where not, it says what is missing and looks flat. */
internal fun Look.ready(button: TextView, yes: Boolean) {
    button.isEnabled = yes
    button.background = if (yes) touchable(accent, down = ink) else box(pressed)
    button.setTextColor(if (yes) onAccent else ink)
}

/** Another thing that could be done. */
internal fun Look.secondary(words: Int, press: () -> Unit): TextView = text(BODY, ink, bold = true).apply {
    setText(words)
    background = touchable(surface, line)
    pressable(press)
}

internal fun TextView.pressable(press: () -> Unit, role: String = "android.widget.Button") {
    val look = Look(context)
    gravity = Gravity.CENTER
    minHeight = look.dp(Look.TARGET)
    minWidth = look.dp(Look.TARGET)
    setPadding(look.dp(Look.MARGIN), look.dp(Look.GAP), look.dp(Look.MARGIN), look.dp(Look.GAP))
    isFocusable = true
    accessibilityDelegate = Spoken(role)
    setOnClickListener { press() }
}

/** A white card with things one under the other. */
internal fun Look.card(fill: Int = surface, edge: Int? = null): LinearLayout = column().apply {
    background = box(fill, edge)
    val inside = dp(Look.MARGIN)
    setPadding(inside, inside, inside, inside)
}

internal fun Look.column(): LinearLayout = LinearLayout(context).apply { orientation = LinearLayout.VERTICAL }

/** Adds something below the rest. */
internal fun LinearLayout.below(view: View, gap: Int = Look.GAP): View {
    val params = LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT)
    if (childCount > 0) params.topMargin = Look(context).dp(gap)
    addView(view, params)
    return view
}

/** One of several: chips that wrap; the chosen one has a tick, not only a colour. */
class Choice(private val look: Look, label: CharSequence, private val choose: (String) -> Unit) {
    /** What may be chosen. */
    data class Option(val value: String, val words: CharSequence, val says: CharSequence = words)

    val view: LinearLayout = look.column()
    private val flow = Flow(look.context, look.dp(Look.GAP))
    private val wrong = look.text(Sizes.BODY, look.warn, bold = true)
    private var options = emptyList<Option>()

    init {
        view.below(look.heading(label))
        view.below(flow)
        view.below(wrong)
        wrong.visibility = View.GONE
    }

    fun show(options: List<Option>, chosen: String, trouble: String = "") {
        if (options != this.options) {
            this.options = options
            flow.removeAllViews()
            options.forEach { flow.addView(chip(it)) }
        }
        for (index in 0 until flow.childCount) mark(flow.getChildAt(index) as TextView, options[index].value == chosen)
        wrong.text = trouble
        wrong.visibility = if (trouble.isEmpty()) View.GONE else View.VISIBLE
    }

    private fun chip(option: Option): TextView = look.text(Sizes.BODY).apply {
        text = option.words
        contentDescription = option.says
        pressable({ choose(option.value) })
        accessibilityDelegate = Spoken("android.widget.RadioButton", choice = true)
        compoundDrawablePadding = look.dp(Look.GAP)
    }

    private fun mark(chip: TextView, chosen: Boolean) {
        chip.isSelected = chosen
        chip.background = if (chosen) look.touchable(look.chosen, look.accent) else look.touchable(look.surface, look.line)
        chip.setTextColor(if (chosen) look.onChosen else look.ink)
        val tick = if (chosen) look.icon(R.drawable.tick, look.onChosen) else null
        chip.setCompoundDrawablesRelative(tick, null, null, null)
    }
}

/** A field with its name above it and what is wrong below it. */
class Entry(
    private val look: Look,
    label: CharSequence,
    number: Boolean,
    below: Boolean = false,
    private val typed: (String) -> Unit,
) {
    val view: LinearLayout = look.column()
    val edit = EditText(look.context)
    private val name = look.text(Sizes.BODY, bold = true)
    private val wrong = look.text(Sizes.BODY, look.warn, bold = true)
    private var shown = ""

    init {
        name.text = label
        edit.id = View.generateViewId()
        name.labelFor = edit.id
        edit.setTextSize(TypedValue.COMPLEX_UNIT_SP, Sizes.HEADING)
        edit.setTextColor(look.ink)
        edit.background = look.touchable(look.surface, look.line, look.surface)
        // A single line resets the text's own least height; the view's stays.
        edit.minimumHeight = look.dp(Look.TARGET)
        edit.setPadding(look.dp(Look.MARGIN), 0, look.dp(Look.MARGIN), 0)
        edit.isSingleLine = true
        // Letters come through where a number is wanted: what is wrong is said, not swallowed.
        edit.inputType = if (number) {
            InputType.TYPE_CLASS_NUMBER or InputType.TYPE_NUMBER_FLAG_DECIMAL
        } else {
            InputType.TYPE_CLASS_TEXT or InputType.TYPE_TEXT_FLAG_CAP_SENTENCES
        }
        if (number) edit.keyListener = Decimals(below)
        edit.isSaveEnabled = false
        edit.addTextChangedListener(object : TextWatcher {
            override fun beforeTextChanged(s: CharSequence?, start: Int, count: Int, after: Int) = Unit

            override fun onTextChanged(s: CharSequence?, start: Int, before: Int, count: Int) = Unit

            override fun afterTextChanged(s: Editable?) {
                val now = s?.toString().orEmpty()
                if (now != shown) {
                    shown = now
                    typed(now)
                }
            }
        })
        view.below(name)
        view.below(edit, 4)
        view.below(wrong, 4)
        wrong.visibility = View.GONE
    }

    fun show(text: String, trouble: String = "") {
        if (text != shown) {
            shown = text
            edit.setText(text)
        }
        wrong.text = trouble
        wrong.visibility = if (trouble.isEmpty()) View.GONE else View.VISIBLE
    }
}

/** Digits, a point, a comma: a Spanish keyboard gives the comma, and both are read; a minus where it can be below zero. */
private class Decimals(private val below: Boolean) : android.text.method.DigitsKeyListener(null as java.util.Locale?) {
    private val kept = if (below) "-0123456789.," else "0123456789.,"

    override fun getAcceptedChars(): CharArray = kept.toCharArray()

    override fun getInputType(): Int = InputType.TYPE_CLASS_NUMBER or InputType.TYPE_NUMBER_FLAG_DECIMAL or
        if (below) InputType.TYPE_NUMBER_FLAG_SIGNED else 0

    override fun filter(
        source: CharSequence,
        start: Int,
        end: Int,
        dest: android.text.Spanned,
        dstart: Int,
        dend: Int,
    ): CharSequence? =
        source.subSequence(start, end).toString().filter { it in kept }.takeIf { it.length < end - start }
}

/** Sizes of type, sp. */
object Sizes {
    const val TITLE = 28f
    const val HEADING = 20f
    const val BODY = 18f
    const val QUIET = 16f
    const val TAB = 14f
}

private const val TITLE = Sizes.TITLE
private const val HEADING = Sizes.HEADING
private const val BODY = Sizes.BODY
private const val QUIET = Sizes.QUIET
private const val LINE = 1.12f

/** Words of the app in the reader's language. */
internal fun Context.say(resource: Int): String = getString(resource)
