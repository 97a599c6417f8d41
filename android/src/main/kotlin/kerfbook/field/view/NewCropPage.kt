package kerfbook.field.view

import android.view.View
import kerfbook.core.Hunger
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NewCropState
import kerfbook.field.presenter.Press

class NewCropPage(look: Look, send: (Event) -> Unit) : Page<NewCropState>(look, send) {
    private val name = Entry(look, words(R.string.crop_name), number = false) { send(Event.Typed("name", it)) }
    private val hunger = Choice(look, words(R.string.crop_hunger)) { send(Event.Chosen("hunger", it)) }
    private val weeks = Entry(look, words(R.string.crop_weeks), number = true) { send(Event.Typed("weeks", it)) }
    override val action: View = look.primary(R.string.save) { send(Event.Pressed(Press.SAVE)) }

    init {
        content.below(trouble)
        content.below(name.view)
        content.below(hunger.view, 24)
        content.below(weeks.view, 24)
    }

    override fun show(state: NewCropState) {
        tell(state.wrong[""].orEmpty())
        name.show(state.draft["name"].orEmpty(), state.wrong["name"].orEmpty())
        hunger.show(
            listOf(
                Choice.Option(Hunger.LIGHT.name, words(R.string.hunger_light)),
                Choice.Option(Hunger.MIDDLING.name, words(R.string.hunger_middling)),
                Choice.Option(Hunger.HUNGRY.name, words(R.string.hunger_hungry)),
                Choice.Option(Hunger.UNKNOWN.name, words(R.string.dont_know)),
            ),
            state.draft["hunger"] ?: Hunger.UNKNOWN.name,
        )
        weeks.show(state.draft["weeks"].orEmpty(), state.wrong["weeks"].orEmpty())
        action.isEnabled = !state.busy
    }
}
