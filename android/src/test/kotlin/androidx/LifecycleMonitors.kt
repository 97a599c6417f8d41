package androidx.test.internal.runner.lifecycle

import android.app.Activity
import android.app.Application
import androidx.test.runner.lifecycle.ActivityLifecycleMonitor
import androidx.test.runner.lifecycle.ApplicationLifecycleMonitor
import androidx.test.runner.lifecycle.ApplicationStage
import androidx.test.runner.lifecycle.Stage

class ActivityLifecycleMonitorImpl : ActivityLifecycleMonitor {
    var last: Pair<Stage, Activity>? = null

    fun signalLifecycleChange(stage: Stage, activity: Activity) {
        last = stage to activity
    }
}

class ApplicationLifecycleMonitorImpl : ApplicationLifecycleMonitor {
    var last: Pair<Application, ApplicationStage>? = null

    fun signalLifecycleChange(application: Application, stage: ApplicationStage) {
        last = application to stage
    }
}
