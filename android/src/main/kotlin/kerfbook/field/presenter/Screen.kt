package kerfbook.field.presenter

/** A screen, and what it is about. */
data class Screen(val kind: Kind, val about: String = "") {
    enum class Kind {
        TODAY, PLACES, PUT_DOWN, LOOK, BOOK,
        PLACE, NEW_PLACE, NEW_LOAD, NEW_CROP, SETTINGS, WALK, PILES, NEW_PILE, PILE, HEAT, TURN, FINISH,
        TRIALS, NEW_TRIAL, TRIAL, SCORE,
    }

    companion object {
        /** The screens that the bar at the bottom names, in its order. */
        val ROOTS = listOf(Kind.TODAY, Kind.PLACES, Kind.PUT_DOWN, Kind.LOOK, Kind.BOOK)
    }
}

/** Screens one over the other, each with what was typed in it. The lowest is one of the bar's. */
data class Navigation(val stack: List<Open>) {
    /** A screen that is open. */
    data class Open(val screen: Screen, val draft: Map<String, String> = emptyMap())

    val top: Open get() = stack.last()

    val deep: Boolean get() = stack.size > 1

    /** The bar's screen that all this began on. */
    val root: Screen.Kind get() = stack.first().screen.kind

    fun open(screen: Screen): Navigation = Navigation(stack + Open(screen))

    /** A screen of the bar: what was open over another one is closed. */
    fun start(kind: Screen.Kind): Navigation = Navigation(listOf(Open(Screen(kind))))

    fun close(): Navigation = if (deep) Navigation(stack.dropLast(1)) else this

    fun keep(draft: Map<String, String>): Navigation = Navigation(stack.dropLast(1) + top.copy(draft = draft))

    companion object {
        val FIRST = Navigation(listOf(Open(Screen(Screen.Kind.TODAY))))
    }
}
