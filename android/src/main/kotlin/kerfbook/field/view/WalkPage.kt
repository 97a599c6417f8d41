package kerfbook.field.view

import android.view.View
import kerfbook.core.Ground
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NoFix
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.WalkState

class WalkPage(look: Look, send: (Event) -> Unit) : Page<WalkState>(look, send) {
    private val how = look.body(words(R.string.walk_about))
    private val area = look.text(Sizes.HEADING, bold = true)
    private val about = look.quietly()
    private val said = look.column()
    private val path = Drawing(look)
    private val drawn = look.card()
    private val trees = Choice(look, words(R.string.walk_trees)) { send(Event.Chosen("trees", it)) }
    private val label = Entry(look, words(R.string.place_name), number = false) { send(Event.Typed("label", it)) }
    private val ground = Choice(look, words(R.string.place_ground)) { send(Event.Chosen("ground", it)) }
    private val goOn = look.secondary(R.string.walk_go_on) { send(Event.Pressed(Press.WALK)) }
    private val forget = look.column()
    private val tape = look.secondary(R.string.walk_tape) { send(Event.Pressed(Press.TAPE)) }
    private val main = look.primary(R.string.walk_start) { send(Event.Pressed(press)) }
    private var press = Press.WALK
    override val action: View = main

    init {
        content.below(trouble)
        content.below(how)
        content.below(area, 16)
        content.below(about, 4)
        drawn.below(path)
        content.below(drawn, 16)
        content.below(said, 16)
        content.below(label.view, 24)
        content.below(ground.view, 16)
        content.below(trees.view, 24)
        content.below(goOn, 24)
        content.below(tape)
        content.below(forget)
    }

    override fun show(state: WalkState) {
        val wrong = state.wrong
        tell(why(state).ifEmpty { wrong[""] ?: wrong["walk"].orEmpty() })
        val view = state.view
        val begun = state.fixes > 0
        how.shown(!begun && !state.walking)
        area.text = view?.area.orEmpty()
        area.shown(!view?.area.isNullOrEmpty())
        about.text = view?.about.orEmpty()
        about.shown(!view?.about.isNullOrEmpty())
        drawn.shown(begun && view != null)
        view?.let { path.show(it.path) }
        said.removeAllViews()
        if (begun || state.walking) view?.said.orEmpty().forEach { said.below(look.body(it)) }
        label.view.shown(state.ready)
        ground.view.shown(state.ready)
        label.show(state.draft["label"].orEmpty(), wrong["label"].orEmpty())
        ground.show(GROUNDS.map { (ground, name) -> Choice.Option(ground.name, words(name)) }, state.ground.name)
        trees.show(
            listOf(Choice.Option("", words(R.string.no)), Choice.Option("yes", words(R.string.yes))),
            state.draft["trees"].orEmpty(),
        )
        goOn.shown(!state.walking && state.ready)
        forget(state)
        act(state)
    }

    private fun act(state: WalkState) {
        val (what, name) = when {
            state.walking -> Press.STOP to R.string.walk_stop
            state.ready -> Press.SAVE to R.string.save
            state.fixes > 0 -> Press.WALK to R.string.walk_go_on
            else -> Press.WALK to R.string.walk_start
        }
        press = what
        main.setText(name)
        look.ready(main, !state.busy)
    }

    private fun forget(state: WalkState) {
        forget.removeAllViews()
        if (state.fixes == 0 || state.walking) return
        if ("forget" !in state.draft) {
            forget.below(look.secondary(R.string.walk_forget) { send(Event.Pressed(Press.FORGET)) })
            return
        }
        val acts = Flow(look.context, look.dp(Look.GAP), stretch = true)
        acts.addView(look.primary(R.string.walk_forget) { send(Event.Pressed(Press.FORGET)) })
        acts.addView(look.secondary(R.string.cancel) { send(Event.Pressed(Press.OTHER)) })
        forget.below(acts)
    }

    private fun why(state: WalkState): String = when (state.trouble) {
        NoFix.DENIED -> words(R.string.walk_denied)
        NoFix.OFF -> words(R.string.walk_off)
        null -> ""
    }

    private companion object {
        /** Rings and pots are counted, not walked round. */
        val GROUNDS = listOf(
            Ground.BED to R.string.ground_bed,
            Ground.ROW to R.string.ground_row,
            Ground.PATH to R.string.ground_path,
            Ground.YARD to R.string.ground_yard,
        )
    }
}
