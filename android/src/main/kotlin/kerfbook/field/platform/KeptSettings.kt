package kerfbook.field.platform

import android.content.Context
import android.content.SharedPreferences
import android.content.res.Configuration
import kerfbook.core.ContainersView
import kerfbook.core.Measures
import kerfbook.core.Reader
import kerfbook.core.Tongue
import kerfbook.field.presenter.Settings
import kerfbook.field.presenter.SettingsPresenter
import java.util.Locale

/** What was set on this phone. It is no part of the book: another phone of the holding may be set otherwise. */
class KeptSettings(private val context: Context) {
    private val kept: SharedPreferences get() = context.getSharedPreferences("settings", Context.MODE_PRIVATE)

    fun read(): Settings {
        val kept = kept
        fun text(name: String) = kept.getString(name, null).orEmpty()
        fun figure(name: String) = text("$name-holds").toDoubleOrNull()
        return Settings(
            language = text("language"),
            units = text("units"),
            person = text("person"),
            typed = SettingsPresenter.CONTAINERS.associateWith(::text).filterValues { it.isNotEmpty() },
            holds = ContainersView(figure("barrow"), figure("bucket"), figure("trailer")),
        )
    }

    fun keep(settings: Settings) {
        val holds = settings.holds
        val figures = mapOf("barrow" to holds.barrowL, "bucket" to holds.bucketL, "trailer" to holds.trailerM3)
        kept.edit().clear().apply {
            putString("language", settings.language)
            putString("units", settings.units)
            putString("person", settings.person)
            settings.typed.forEach { (name, text) -> putString(name, text) }
            figures.forEach { (name, figure) -> figure?.let { putString("$name-holds", it.toString()) } }
        }.apply()
    }

    /** The phone as it is set here: its labels speak the language that was chosen. */
    fun dressed(): Context {
        val language = read().language
        if (language.isEmpty()) return context
        val country = context.resources.configuration.locales[0].country
        val configuration = Configuration(context.resources.configuration)
        configuration.setLocale(Locale(language, country))
        return context.createConfigurationContext(configuration)
    }

    /** In US units: as chosen, else where the phone's country measures so. */
    fun us(): Boolean = when (read().units) {
        "us" -> true
        "metric" -> false
        else -> context.resources.configuration.locales[0].country == "US"
    }

    fun reader(): Reader {
        val settings = read()
        val spanish = context.resources.configuration.locales[0].language == "es"
        return Reader(
            tongue = if (spanish) Tongue.SPANISH else Tongue.ENGLISH,
            measures = if (us()) Measures.US else Measures.METRIC,
            barrowL = settings.holds.barrowL,
            bucketL = settings.holds.bucketL,
            trailerM3 = settings.holds.trailerM3,
        )
    }
}
