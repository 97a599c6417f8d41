package kerfbook.field.view

import android.view.View
import kerfbook.core.BatchLine
import kerfbook.core.Measure
import kerfbook.core.RuleLine
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NewPileState
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.measure

class NewPilePage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<NewPileState>(look, send) {
    private val name = Entry(look, words(R.string.pile_name), number = false) { send(Event.Typed("name", it)) }
    private val inside = look.column()
    private val empty = look.column()
    private val measure = Choice(look, words(R.string.load_measure)) { send(Event.Chosen("measure", it)) }
    private val amounts = look.column()
    private var entries = emptyMap<String, Entry>()
    private val missing = look.text(Sizes.BODY, look.warn, bold = true)
    private val water =
        Entry(look, words(if (us) R.string.water_gal else R.string.water_l), number = true) { send(Event.Typed("water", it)) }
    private val comes = look.column()
    private val rule = Choice(look, words(R.string.pile_rule)) { send(Event.Chosen("rule", it)) }
    private val ruleAbout = look.quietly()
    private val choose = look.secondary(R.string.pile_rule_choose) { send(Event.Pressed(Press.MORE)) }
    private val save = look.primary(R.string.pile_build) { send(Event.Pressed(Press.SAVE)) }
    override val action: View = save

    init {
        content.below(trouble)
        content.below(name.view)
        content.below(empty, 24)
        empty.below(look.body(words(R.string.pile_no_batch)))
        empty.below(look.secondary(R.string.new_load) { send(Event.Pressed(Press.NEW_LOAD)) }, 16)
        content.below(inside, 24)
        inside.below(look.heading(words(R.string.pile_inside)))
        inside.below(measure.view, 16)
        inside.below(amounts, 16)
        inside.below(missing)
        inside.below(water.view, 16)
        content.below(comes, 24)
        content.below(rule.view, 24)
        content.below(ruleAbout)
        content.below(choose)
    }

    override fun show(state: NewPileState) {
        val (draft, wrong) = state.draft to state.wrong
        tell(wrong[""].orEmpty())
        name.show(draft["name"].orEmpty(), wrong["name"].orEmpty())
        val start = state.start
        empty.shown(start != null && start.batches.isEmpty())
        inside.shown(start != null && start.batches.isNotEmpty())
        measure.show(
            measures(start?.trailer == true).filter { it.first != Measure.DEPTH }
                .map { (measure, name) -> Choice.Option(measure.name, words(name)) },
            measure(draft).name,
            wrong["measure"].orEmpty(),
        )
        amounts(start?.batches.orEmpty())
        entries.forEach { (batch, entry) ->
            entry.show(draft["amount-$batch"].orEmpty(), wrong["amount-$batch"].orEmpty())
        }
        missing.text = wrong["amount"].orEmpty()
        missing.shown(missing.text.isNotEmpty())
        water.show(draft["water"].orEmpty(), wrong["water"].orEmpty())
        comes(state)
        rules(start?.rules.orEmpty(), draft["rule"].orEmpty(), "rules" in draft)
        look.ready(save, !state.busy && start != null && start.batches.isNotEmpty())
    }

    private fun amounts(batches: List<BatchLine>) {
        if (entries.keys == batches.map { it.id }.toSet()) return
        amounts.removeAllViews()
        entries = batches.associate { batch ->
            batch.id to Entry(look, batch.label, number = true) { send(Event.Typed("amount-${batch.id}", it)) }
        }
        batches.forEach { batch ->
            amounts.below(checkNotNull(entries[batch.id]).view, 16)
            amounts.below(look.quietly("${batch.material} · ${batch.left}"), 4)
        }
    }

    private fun comes(state: NewPileState) {
        comes.removeAllViews()
        val answer = state.answer ?: return
        val card = look.card()
        card.below(look.heading(words(R.string.pile_comes_to)))
        answer.said.forEach { card.below(look.body(it)) }
        comes.below(card)
        comes.cautions(look, answer.cautions)
    }

    private fun rules(rules: List<RuleLine>, chosen: String, all: Boolean) {
        val options = rules.filter { all || it.name == chosen }.map { Choice.Option(it.name, it.name, "${it.name}, ${it.about}") }
        rule.show(listOf(Choice.Option("", words(R.string.pile_no_rule))) + options, chosen)
        choose.shown(!all)
        val about = rules.firstOrNull { it.name == chosen }?.about.orEmpty()
        ruleAbout.text = about
        ruleAbout.shown(about.isNotEmpty())
    }
}
