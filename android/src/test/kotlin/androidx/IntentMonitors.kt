package androidx.test.internal.runner.intent

import android.content.Intent
import androidx.test.runner.intent.IntentMonitor

class IntentMonitorImpl : IntentMonitor {
    var last: Intent? = null

    fun signalIntent(intent: Intent) {
        last = intent
    }
}
