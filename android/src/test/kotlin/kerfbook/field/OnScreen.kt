package kerfbook.field

import android.Manifest
import android.app.Activity
import android.graphics.Bitmap
import android.location.Location
import android.location.LocationManager
import android.os.Handler
import android.os.Looper
import android.view.PixelCopy
import android.view.View
import android.view.ViewGroup
import android.widget.EditText
import android.widget.TextView
import kerfbook.field.platform.Gateway
import kerfbook.field.platform.Phone
import org.robolectric.Robolectric
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import java.io.File
import java.util.concurrent.ConcurrentHashMap
import java.util.concurrent.Executors
import kotlin.math.cos

/** The app on a screen, with the real core on a worker of the test's. */
class OnScreen(folder: File, val clock: TestClock = TestClock(), keys: TestKeys = TestKeys()) {
    private val worker = Executors.newSingleThreadExecutor()
    val controller: ActivityController<FieldActivity>

    /** Which threads made which calls of the core. */
    val callers = ConcurrentHashMap<String, MutableSet<Thread>>()
    val activity: Activity get() = controller.get()
    var taps = 0
        private set

    init {
        Phone.forget()
        Phone.make = { Gateway(File(folder, "book"), keys, clock, worker, worker, ::hear) }
        controller = Robolectric.buildActivity(FieldActivity::class.java).setup()
        settle()
    }

    private fun hear(call: String) {
        callers.getOrPut(call) { ConcurrentHashMap.newKeySet() }.add(Thread.currentThread())
    }

    /** Waits until worker and screen have nothing left to do. */
    fun settle() {
        repeat(ROUNDS) {
            worker.submit {}.get()
            shadowOf(Looper.getMainLooper()).idle()
        }
    }

    fun views(): List<View> = all(activity.window.decorView).filter { it.isShown }

    fun texts(): List<String> = views().filterIsInstance<TextView>().map { it.text.toString() }.filter { it.isNotEmpty() }

    fun says(text: String): Boolean = texts().any { it.contains(text) }

    /** Touches what bears these words. */
    fun tap(words: String) {
        val target = views().firstOrNull { it.isClickable && called(it, words) && it.isEnabled }
            ?: error("nothing to tap says '$words'; there is: ${texts()}")
        taps++
        target.performClick()
        settle()
    }

    /** Touches the line whose spoken words hold these. */
    fun tapLine(words: String) {
        taps++
        views().first { it.isClickable && it.contentDescription?.contains(words) == true }.performClick()
        settle()
    }

    fun type(label: String, text: String) {
        val name = views().filterIsInstance<TextView>().first { it.text.toString() == label }
        val field = views().filterIsInstance<EditText>().first { it.id == name.labelFor }
        field.setText(text)
        settle()
    }

    /** Leave to know where the phone is, given or taken. */
    fun leave(given: Boolean) {
        val application = shadowOf(activity.application)
        val names = arrayOf(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)
        if (given) application.grantPermissions(*names) else application.denyPermissions(*names)
    }

    /** What the system tells after the person was asked. */
    fun asked() {
        activity.onRequestPermissionsResult(1, arrayOf(Manifest.permission.ACCESS_FINE_LOCATION), intArrayOf(0))
        settle()
    }

    /** The receiver, on or off. */
    fun receiver(on: Boolean) {
        shadowOf(manager()).setProviderEnabled(LocationManager.GPS_PROVIDER, on)
        settle()
    }

    /** Walks round a rectangle, metres east and north of 45 degrees, from one second to another, a fix a second. */
    fun walk(seconds: IntRange, accuracy: Float = 3f, wide: Double = 60.0, high: Double = 40.0) {
        for (second in seconds) {
            val (east, north) = onRectangle(second * SPEED, wide, high)
            val location = Location(LocationManager.GPS_PROVIDER).apply {
                latitude = 45.0 + north / 111_132.0
                longitude = east / (111_320.0 * cos(Math.toRadians(45.0)))
                time = clock.day.toEpochDay() * 86_400_000L + second * 1000L
                elapsedRealtimeNanos = (second + 1) * 1_000_000_000L
                this.accuracy = accuracy
            }
            shadowOf(manager()).simulateLocation(location)
        }
        settle()
    }

    private fun manager() = activity.getSystemService(Activity.LOCATION_SERVICE) as LocationManager

    private fun onRectangle(way: Double, wide: Double, high: Double): Pair<Double, Double> {
        val here = way % (2 * (wide + high))
        return when {
            here < wide -> here to 0.0
            here < wide + high -> wide to here - wide
            here < 2 * wide + high -> 2 * wide + high - here to high
            else -> 0.0 to 2 * (wide + high) - here
        }
    }

    /** The process ends, and the app comes back as the system brings it back. */
    fun dies() {
        Phone.forget()
        controller.recreate()
        settle()
    }

    fun picture(): Bitmap {
        val window = activity.window
        val bitmap = Bitmap.createBitmap(window.decorView.width, window.decorView.height, Bitmap.Config.ARGB_8888)
        var result = -1
        PixelCopy.request(window, bitmap, { result = it }, Handler(Looper.getMainLooper()))
        shadowOf(Looper.getMainLooper()).idle()
        check(result == PixelCopy.SUCCESS) { "no picture: $result" }
        return bitmap
    }

    fun close() {
        controller.pause().stop().destroy()
        worker.submit {}.get()
        worker.shutdown()
        Phone.forget()
    }

    private fun called(view: View, words: String): Boolean =
        (view as? TextView)?.text?.toString()?.lineSequence()?.first() == words ||
            view.contentDescription?.toString()?.startsWith(words) == true

    private companion object {
        const val ROUNDS = 6

        /** Of a person, metres a second. */
        const val SPEED = 1.25
    }
}

/** A view and all that is in it. */
fun all(view: View): List<View> =
    listOf(view) + if (view is ViewGroup) (0 until view.childCount).flatMap { all(view.getChildAt(it)) } else emptyList()
