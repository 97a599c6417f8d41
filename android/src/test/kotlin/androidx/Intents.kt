package androidx.test.runner.intent

import android.app.Instrumentation
import android.content.Intent

interface IntentMonitor

interface IntentStubber {
    fun getActivityResultForIntent(intent: Intent): Instrumentation.ActivityResult?
}

object IntentMonitorRegistry {
    private var monitor: IntentMonitor? = null

    @JvmStatic
    fun registerInstance(instance: IntentMonitor?) {
        monitor = instance
    }

    @JvmStatic
    fun getInstance(): IntentMonitor = checkNotNull(monitor)
}

object IntentStubberRegistry {
    @JvmStatic
    fun isLoaded(): Boolean = false

    @JvmStatic
    fun getInstance(): IntentStubber = error("no intents are stubbed")
}
