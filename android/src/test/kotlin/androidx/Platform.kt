// Stand-ins for what Robolectric links against; the real ones are in no public Maven repository that this build uses.
package androidx.test.platform.app

import android.app.Instrumentation
import android.os.Bundle

object InstrumentationRegistry {
    private var registered: Pair<Instrumentation?, Bundle?>? = null

    @JvmStatic
    fun registerInstance(instrumentation: Instrumentation?, arguments: Bundle?) {
        registered = instrumentation to arguments
    }
}
