package kerfbook.field.view

import android.graphics.Paint
import android.widget.LinearLayout
import kerfbook.core.EntryView
import kerfbook.core.PlaceLine
import kerfbook.field.R
import kerfbook.field.presenter.BookState
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press

class BookPage(look: Look, send: (Event) -> Unit) : Page<BookState>(look, send) {
    private val list = look.column()

    init {
        val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
        acts.addView(look.secondary(R.string.settings) { send(Event.Pressed(Press.SETTINGS)) })
        acts.addView(look.secondary(R.string.hand_over) { send(Event.Pressed(Press.HAND_OVER)) })
        content.below(acts)
        content.below(look.quietly(words(R.string.hand_over_about)), 4)
        content.below(trouble)
        content.below(list, 16)
    }

    override fun show(state: BookState) {
        tell(state.trouble)
        val entries = state.entries ?: return
        list.removeAllViews()
        entries.forEach { list.below(entry(it, state.asking == it.id, state.places)) }
        if (state.more) list.below(look.secondary(R.string.book_more) { send(Event.Pressed(Press.MORE)) }, 16)
    }

    private fun entry(entry: EntryView, asking: Boolean, places: List<PlaceLine>): LinearLayout {
        val card = look.card()
        val by = if (entry.by.isEmpty()) entry.day else "${entry.day} · ${entry.by}"
        card.below(look.quietly(by))
        val text = look.body(entry.text)
        // Struck out, and the flag below says it in words.
        if (entry.out) text.paintFlags = text.paintFlags or Paint.STRIKE_THRU_TEXT_FLAG
        card.below(text, 4)
        entry.flags.forEach { flag -> card.below(look.text(Sizes.QUIET, look.warn, bold = true).apply { this.text = flag }, 4) }
        if (asking && !entry.out) right(card, entry, places)
        if (asking) ask(card, entry)
        val changes = entry.out || entry.changes
        if (changes && !asking) {
            card.tappable("${entry.day}. ${entry.text}") { send(Event.Pressed(Press.OPEN, entry.id)) }
        }
        return card
    }

    /** Mistakes that can be put right without taking the entry out. */
    private fun right(card: LinearLayout, entry: EntryView, places: List<PlaceLine>) {
        val elsewhere = places.filter { it.id != entry.place }.map { Choice.Option(it.id, it.label) }
        if (entry.moves && elsewhere.isNotEmpty()) choice(card, R.string.book_move, "place", elsewhere)
        if (entry.slips.isNotEmpty()) {
            choice(card, R.string.book_unit, "unit", entry.slips.map { Choice.Option(it.text, it.text) })
        }
    }

    private fun choice(card: LinearLayout, label: Int, field: String, options: List<Choice.Option>) {
        val choice = Choice(look, words(label)) { send(Event.Chosen(field, it)) }
        choice.show(options, "")
        card.below(choice.view, 16)
    }

    /** What can be done with an entry stands there once it was touched. */
    private fun ask(card: LinearLayout, entry: EntryView) {
        card.below(look.body(words(if (entry.out) R.string.book_back else R.string.book_sure)), 16)
        val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
        acts.addView(
            if (entry.out) {
                look.primary(R.string.book_put_back) { send(Event.Pressed(Press.PUT_BACK, entry.id)) }
            } else {
                look.primary(R.string.book_take_out) { send(Event.Pressed(Press.TAKE_OUT, entry.id)) }
            },
        )
        acts.addView(look.secondary(R.string.cancel) { send(Event.Pressed(Press.OTHER)) })
        card.below(acts)
    }
}
