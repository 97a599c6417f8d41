package kerfbook.field.view

import android.view.View
import android.widget.LinearLayout
import kerfbook.core.CautionView

/** What to mind, each with who says so. */
internal fun LinearLayout.cautions(look: Look, cautions: List<CautionView>) {
    for (caution in cautions) {
        val card = look.card(look.warnGround, look.warn)
        card.below(look.text(Sizes.BODY, look.warn, bold = true).apply { text = caution.severity })
        card.below(look.body(caution.text), 4)
        card.below(look.quietly(caution.source), 4)
        below(card)
    }
}

/** A card that opens something. */
internal fun LinearLayout.tappable(says: String, press: () -> Unit) {
    val look = Look(context)
    background = look.touchable(look.surface, look.line)
    minimumHeight = look.dp(Look.TARGET)
    isFocusable = true
    contentDescription = says
    importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_YES
    setOnClickListener { press() }
}
