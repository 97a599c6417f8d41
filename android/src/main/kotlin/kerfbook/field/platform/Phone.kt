package kerfbook.field.platform

import android.content.Context
import android.os.VibrationEffect
import android.os.Vibrator
import kerfbook.core.Reader
import java.io.File

/** What is one a process: the way to the core, and the walk. */
object Phone {
    /** How the gateway is made; tests bring their own key store and clock. */
    var make: (Context) -> Gateway = { context ->
        Gateway(File(context.filesDir, "book/field.kerfbook"), WrappedKey(context), PhoneClock())
    }
    private var gateway: Gateway? = null
    private var walking: Walking? = null

    fun gateway(context: Context): Gateway = gateway ?: make(context).also { gateway = it }

    fun walking(context: Context): Walking = walking ?: Walking(context).also { walking = it }

    /** Forgets it, as the end of the process does. */
    internal fun forget() {
        gateway = null
        walking = null
    }

    internal fun forgetWalk() {
        walking = null
    }

    /** The hand feels it, with a dark screen as well. */
    fun buzz(context: Context) {
        @Suppress("DEPRECATION")
        val vibrator = context.getSystemService(Context.VIBRATOR_SERVICE) as Vibrator
        vibrator.vibrate(VibrationEffect.createOneShot(BUZZ_MS, VibrationEffect.DEFAULT_AMPLITUDE))
    }

    /** How a person is spoken to. */
    fun reader(context: Context): Reader = KeptSettings(context).reader()

    fun us(context: Context): Boolean = KeptSettings(context).us()

    private const val BUZZ_MS = 150L
}
