package kerfbook.field.view

import android.view.View
import kerfbook.field.R
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.Press
import kerfbook.field.presenter.SettingsState

class SettingsPage(look: Look, send: (Event) -> Unit, us: Boolean) : Page<SettingsState>(look, send) {
    private val person = Choice(look, words(R.string.settings_who)) { send(Event.Chosen("person", it)) }
    private val name = Entry(look, words(R.string.settings_name), number = false) { send(Event.Typed("name", it)) }
    private val add = look.secondary(R.string.settings_add) { send(Event.Pressed(Press.OTHER)) }
    private val language = Choice(look, words(R.string.settings_language)) { send(Event.Chosen("language", it)) }
    private val units = Choice(look, words(R.string.settings_units)) { send(Event.Chosen("units", it)) }
    private val barrow = number("barrow", if (us) R.string.barrow_gal else R.string.barrow_l)
    private val bucket = number("bucket", if (us) R.string.bucket_gal else R.string.bucket_l)
    private val trailer = number("trailer", if (us) R.string.trailer_yd3 else R.string.trailer_m3)
    override val action: View = look.primary(R.string.save) { send(Event.Pressed(Press.SAVE)) }

    init {
        content.below(trouble)
        content.below(person.view)
        content.below(name.view, 16)
        content.below(add)
        content.below(language.view, 24)
        content.below(units.view, 24)
        content.below(look.heading(words(R.string.settings_containers)), 24)
        content.below(look.quietly(words(R.string.settings_usual)), 4)
        content.below(barrow.view)
        content.below(bucket.view, 16)
        content.below(trailer.view, 16)
    }

    private fun number(field: String, label: Int) =
        Entry(look, words(label), number = true) { send(Event.Typed(field, it)) }

    override fun show(state: SettingsState) {
        tell(state.wrong[""].orEmpty())
        val nobody = Choice.Option("", words(R.string.settings_nobody))
        person.show(listOf(nobody) + state.people.map { Choice.Option(it.id, it.name) }, state.settings.person)
        language.show(
            listOf(
                Choice.Option("", words(R.string.as_the_phone)),
                Choice.Option("en", words(R.string.language_en)),
                Choice.Option("es", words(R.string.language_es)),
            ),
            state.settings.language,
        )
        units.show(
            listOf(
                Choice.Option("", words(R.string.as_the_phone)),
                Choice.Option("metric", words(R.string.units_metric)),
                Choice.Option("us", words(R.string.units_us)),
            ),
            state.settings.units,
        )
        listOf("name" to name, "barrow" to barrow, "bucket" to bucket, "trailer" to trailer).forEach { (field, entry) ->
            entry.show(state.draft[field].orEmpty(), state.wrong[field].orEmpty())
        }
    }
}
