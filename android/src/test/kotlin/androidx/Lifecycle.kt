package androidx.test.runner.lifecycle

enum class Stage { PRE_ON_CREATE, CREATED, STARTED, RESUMED, PAUSED, STOPPED, RESTARTED, DESTROYED }

enum class ApplicationStage { PRE_ON_CREATE, CREATED }

interface ActivityLifecycleMonitor

interface ApplicationLifecycleMonitor

object ActivityLifecycleMonitorRegistry {
    private var monitor: ActivityLifecycleMonitor? = null

    @JvmStatic
    fun registerInstance(instance: ActivityLifecycleMonitor?) {
        monitor = instance
    }

    @JvmStatic
    fun getInstance(): ActivityLifecycleMonitor = checkNotNull(monitor)
}

object ApplicationLifecycleMonitorRegistry {
    private var monitor: ApplicationLifecycleMonitor? = null

    @JvmStatic
    fun registerInstance(instance: ApplicationLifecycleMonitor?) {
        monitor = instance
    }

    @JvmStatic
    fun getInstance(): ApplicationLifecycleMonitor = checkNotNull(monitor)
}
