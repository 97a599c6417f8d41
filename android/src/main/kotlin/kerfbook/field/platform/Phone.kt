package kerfbook.field.platform

import android.content.Context
import kerfbook.core.Measures
import kerfbook.core.Reader
import kerfbook.core.Tongue
import java.io.File

/** What is one a process: the way to the core. */
object Phone {
    /** How the gateway is made; tests bring their own key store and clock. */
    var make: (Context) -> Gateway = { context ->
        Gateway(File(context.filesDir, "book/field.kerfbook"), WrappedKey(context), PhoneClock())
    }
    private var gateway: Gateway? = null

    fun gateway(context: Context): Gateway = gateway ?: make(context).also { gateway = it }

    /** Forgets it, as the end of the process does. */
    internal fun forget() {
        gateway = null
    }

    /** The phone's language; its units where the country says so. */
    fun reader(context: Context): Reader {
        val spanish = context.resources.configuration.locales[0].language == "es"
        return Reader(
            tongue = if (spanish) Tongue.SPANISH else Tongue.ENGLISH,
            measures = if (us(context)) Measures.US else Measures.METRIC,
            barrowL = null,
            bucketL = null,
            trailerM3 = null,
        )
    }

    fun us(context: Context): Boolean = context.resources.configuration.locales[0].country == "US"
}
