package kerfbook.field.presenter

import kerfbook.core.FieldBook

/** A person at one screen with the real core behind it; counts what they touch. */
class Hand<S>(private val presenter: Presenter<S>, private val book: FieldBook, draft: Map<String, String> = emptyMap()) {
    var state: S
        private set
    var taps = 0
        private set
    val left = mutableListOf<Effect>()

    init {
        val step = presenter.start(draft)
        state = step.state
        perform(step.effects)
    }

    fun choose(field: String, value: String) {
        taps++
        on(Event.Chosen(field, value))
    }

    fun press(what: Press, about: String = "") {
        taps++
        on(Event.Pressed(what, about))
    }

    fun type(field: String, text: String) = on(Event.Typed(field, text))

    /** The process dies; the screen comes back with its draft. */
    fun reborn(): Hand<S> = Hand(presenter, book, presenter.draft(state))

    private fun on(event: Event) {
        val step = presenter.next(state, event)
        state = step.state
        perform(step.effects)
    }

    private fun perform(effects: List<Effect>) {
        for (effect in effects) {
            if (effect is Effect.Ask) on(answer(book, effect.call)) else left += effect
        }
    }
}

/** A bed and a load in the book; their ids. */
fun stocked(book: FieldBook): Pair<String, String> {
    val place = Hand(NewPlacePresenter, book)
    place.type("label", "Bed 1")
    place.type("length", "10")
    place.type("width", "1,2")
    place.press(Press.SAVE)
    val load = Hand(NewLoadPresenter, book)
    load.choose("material", "sawdust, mixed")
    load.choose("treated", "NO")
    load.type("amount", "20")
    load.type("label", "Mill, April")
    load.press(Press.SAVE)
    val opened = place.left.filterIsInstance<Effect.Close>().single().brings.getValue("place")
    return opened to checkNotNull(load.state.taken?.batch)
}
