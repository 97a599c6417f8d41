package kerfbook.field.view

import android.view.View
import android.widget.LinearLayout
import kerfbook.field.R

/** The first run: what the holding is called. No account, nothing leaves the phone. */
class FoundPage(private val look: Look, found: (name: String, sells: Boolean, certified: Boolean) -> Unit) {
    val content: LinearLayout = look.column()
    private var name = ""
    private var food = "own"
    private val entry = Entry(look, look.context.say(R.string.found_name), number = false) { name = it }
    private val sells = Choice(look, look.context.say(R.string.found_food)) { choose(it) }
    val action: View = look.primary(R.string.found_start) { found(name, food != "own", food == "certified") }

    init {
        content.below(look.body(look.context.say(R.string.found_about)))
        content.below(entry.view, 24)
        content.below(sells.view, 24)
        choose(food)
    }

    private fun choose(value: String) {
        food = value
        sells.show(
            listOf(
                Choice.Option("own", look.context.say(R.string.food_own)),
                Choice.Option("sold", look.context.say(R.string.food_sold)),
                Choice.Option("certified", look.context.say(R.string.food_certified)),
            ),
            value,
        )
    }

    fun wrong(why: String) = entry.show(name, why)
}
