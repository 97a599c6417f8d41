package kerfbook.field.presenter

import kerfbook.core.EntryView

data class BookState(
    val entries: List<EntryView>? = null,
    val more: Boolean = false,
    /** The entry that a person is about to take out: asked once more. */
    val asking: String = "",
    val trouble: String = "",
)

/** Book: entries, newest first; one can be taken out and put back. */
object BookPresenter : Presenter<BookState> {
    override fun start(draft: Map<String, String>) = Step(BookState(), Effect.Ask(Call.Entries(null)))

    override fun next(state: BookState, event: Event): Step<BookState> = when (event) {
        is Event.EntriesCame -> {
            val before = if (event.olderThan == null) emptyList() else state.entries.orEmpty()
            Step(state.copy(entries = before + event.page.entries, more = event.page.more))
        }
        is Event.Changed -> Step(state.copy(asking = ""), listOf(Effect.Confirm, Effect.Ask(Call.Entries(null))))
        is Event.Failed -> Step(state.copy(trouble = event.reason, asking = ""))
        is Event.Pressed -> when (event.what) {
            Press.OPEN -> Step(state.copy(asking = event.about, trouble = ""))
            Press.TAKE_OUT -> if (state.asking == event.about) Step(state, Effect.Ask(Call.Withdraw(event.about))) else Step(state)
            Press.PUT_BACK -> Step(state, Effect.Ask(Call.PutBack(event.about)))
            Press.OTHER -> Step(state.copy(asking = ""))
            Press.MORE -> Step(state, Effect.Ask(Call.Entries(state.entries.orEmpty().lastOrNull()?.id)))
            else -> Step(state)
        }
        else -> Step(state)
    }

    override fun draft(state: BookState) = emptyMap<String, String>()
}
