package kerfbook.field.presenter

import kerfbook.core.EntryView
import kerfbook.core.PlaceLine

data class BookState(
    val entries: List<EntryView>? = null,
    val more: Boolean = false,
    /** The entry that a person is about to change: asked once more. */
    val asking: String = "",
    /** Where an entry may have been instead. */
    val places: List<PlaceLine> = emptyList(),
    val trouble: String = "",
)

/** Book: entries, newest first; one can be taken out and put back, moved to another place, read in another unit. */
object BookPresenter : Presenter<BookState> {
    override fun start(draft: Map<String, String>) = Step(BookState(), Effect.Ask(Call.Entries(null)))

    override fun next(state: BookState, event: Event): Step<BookState> = when (event) {
        is Event.EntriesCame -> {
            val before = if (event.olderThan == null) emptyList() else state.entries.orEmpty()
            Step(state.copy(entries = before + event.page.entries, more = event.page.more))
        }
        is Event.Changed -> Step(state.copy(asking = ""), listOf(Effect.Confirm, Effect.Ask(Call.Entries(null))))
        is Event.Failed -> Step(state.copy(trouble = event.reason, asking = ""))
        is Event.PlacesCame -> Step(state.copy(places = event.places.filter { !it.closed }))
        is Event.Chosen -> Step(state, listOfNotNull(change(state, event)))
        is Event.Pressed -> when (event.what) {
            Press.OPEN -> Step(state.copy(asking = event.about, trouble = ""), Effect.Ask(Call.Places))
            Press.TAKE_OUT -> if (state.asking == event.about) Step(state, Effect.Ask(Call.Withdraw(event.about))) else Step(state)
            Press.PUT_BACK -> Step(state, Effect.Ask(Call.PutBack(event.about)))
            Press.OTHER -> Step(state.copy(asking = ""))
            Press.SETTINGS -> Step(state, Effect.Open(Screen(Screen.Kind.SETTINGS)))
            Press.HAND_OVER -> Step(state.copy(trouble = ""), Effect.HandOver)
            Press.MORE -> Step(state, Effect.Ask(Call.Entries(state.entries.orEmpty().lastOrNull()?.id)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    /** What was chosen for the entry that is asked about: another place, or a unit that was taken for another. */
    private fun change(state: BookState, event: Event.Chosen): Effect? {
        val entry = state.entries.orEmpty().firstOrNull { it.id == state.asking } ?: return null
        return when (event.field) {
            "place" -> Effect.Ask(Call.MoveTo(entry.id, event.value))
            else -> entry.slips.firstOrNull { it.text == event.value }?.let { Effect.Ask(Call.WrongUnit(entry.id, it)) }
        }
    }

    override fun draft(state: BookState) = emptyMap<String, String>()
}
