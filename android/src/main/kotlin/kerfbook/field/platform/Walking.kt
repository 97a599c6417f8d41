package kerfbook.field.platform

import android.Manifest
import android.content.Context
import android.content.pm.PackageManager
import android.location.Location
import android.location.LocationListener
import android.location.LocationManager
import android.os.Bundle
import android.os.Looper
import kerfbook.core.FixGiven
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.NoFix
import java.io.File
import java.io.IOException

/** The walk with the phone's receiver. Every fix is in a file of this app before it is told: the end of the process loses none. */
class Walking(private val context: Context) : LocationListener {
    private val file = File(context.filesDir, "walk")
    private val manager get() = context.getSystemService(Context.LOCATION_SERVICE) as LocationManager
    private var parts: List<List<FixGiven>> = read()

    /** Fixes are asked for. */
    private var on = false

    /** Who wants to know. */
    var listener: (Event) -> Unit = {}

    /** Leave was given to know where the phone is. */
    val allowed: Boolean
        get() = context.checkSelfPermission(Manifest.permission.ACCESS_FINE_LOCATION) == PackageManager.PERMISSION_GRANTED

    fun tell() = listener(Event.Fixed(parts, on))

    fun start() {
        when {
            !allowed -> return listener(Event.NoFixes(NoFix.DENIED))
            !manager.isProviderEnabled(LocationManager.GPS_PROVIDER) -> return listener(Event.NoFixes(NoFix.OFF))
            on -> return tell()
        }
        on = true
        begin()
        ask()
        WalkService.start(context)
        tell()
    }

    fun stop() {
        if (on) {
            on = false
            manager.removeUpdates(this)
            WalkService.stop(context)
        }
        tell()
    }

    fun forget() {
        file.delete()
        parts = emptyList()
        stop()
    }

    override fun onLocationChanged(location: Location) {
        val accuracy = if (location.hasAccuracy()) location.accuracy.toDouble() else 0.0
        val fix = FixGiven(location.latitude, location.longitude, location.time, accuracy)
        keep("${fix.latitudeDeg} ${fix.longitudeDeg} ${fix.timeMs} ${fix.accuracyM}")
        parts = parts.dropLast(1) + listOf(parts.lastOrNull().orEmpty() + fix)
        tell()
    }

    override fun onProviderDisabled(provider: String) {
        stop()
        listener(Event.NoFixes(NoFix.OFF))
    }

    override fun onProviderEnabled(provider: String) = Unit

    @Deprecated("older Android calls it")
    override fun onStatusChanged(provider: String?, status: Int, extras: Bundle?) = Unit

    @Suppress("MissingPermission")
    private fun ask() = manager.requestLocationUpdates(LocationManager.GPS_PROVIDER, EVERY_MS, 0f, this, Looper.getMainLooper())

    /** A new part: what comes now is no neighbour of what came before. */
    private fun begin() {
        if (parts.lastOrNull()?.isEmpty() == true) return
        keep(BREAK)
        parts = parts + listOf(emptyList())
    }

    private fun keep(line: String) = try {
        file.appendText("$line\n")
    } catch (_: IOException) {
        // No room: the walk goes on in memory, and saving it says so.
    }

    /** A line that was cut off in the middle is no fix. */
    private fun read(): List<List<FixGiven>> {
        if (!file.exists()) return emptyList()
        val read = mutableListOf<MutableList<FixGiven>>()
        file.forEachLine { line ->
            val figures = line.split(' ')
            when {
                line == BREAK -> read += mutableListOf<FixGiven>()
                figures.size == FIGURES -> fix(figures)?.let { read.lastOrNull()?.add(it) }
            }
        }
        return read.filter { it.isNotEmpty() }
    }

    private fun fix(figures: List<String>): FixGiven? {
        val (latitude, longitude) = figures.map { it.toDoubleOrNull() ?: return null }
        return FixGiven(latitude, longitude, figures[2].toLongOrNull() ?: return null, figures[3].toDouble())
    }

    private companion object {
        const val EVERY_MS = 1000L
        const val BREAK = "-"
        const val FIGURES = 4
    }
}
