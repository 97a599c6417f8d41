package kerfbook.field.platform

import android.os.Handler
import android.os.Looper
import kerfbook.core.Clock
import kerfbook.core.CoreException
import kerfbook.core.FieldBook
import kerfbook.core.KeyStore
import kerfbook.core.NewHolding
import kerfbook.core.Reader
import kerfbook.field.presenter.Call
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.answer
import java.io.File
import java.util.concurrent.ExecutorService
import java.util.concurrent.Executors

/** The one way to the core: its own worker calls, the main thread hears the answer. One a process. */
class Gateway(
    private val path: File,
    private val keys: KeyStore,
    private val clock: Clock,
    private val worker: ExecutorService = Executors.newSingleThreadExecutor(),
    /** For what takes a while: the core answers other calls meanwhile. */
    private val slow: ExecutorService = Executors.newSingleThreadExecutor(),
    /** Hears of each call of the core where it happens. */
    private val heard: (String) -> Unit = {},
) {
    private val main = Handler(Looper.getMainLooper())

    /** Only the worker sets it. */
    @Volatile
    private var book: FieldBook? = null

    /** The book is there, or not yet, or cannot be opened. */
    sealed class Opened {
        object Ready : Opened()

        object None : Opened()

        data class Trouble(val why: CoreException) : Opened()
    }

    /** Opens the book, or goes on with it: for this reader, with this person writing. */
    fun open(reader: Reader, person: String, then: (Opened) -> Unit) = off(then) {
        book?.speakTo(reader)
        when {
            book != null -> opened(person) { checkNotNull(book) }
            !path.exists() -> Opened.None
            else -> opened(person) { FieldBook.open(path.path, keys, clock, reader) }
        }
    }

    fun found(holding: NewHolding, reader: Reader, then: (Opened) -> Unit) = off(then) {
        path.parentFile?.mkdirs()
        opened("") { FieldBook.found(path.path, holding, keys, clock, reader) }
    }

    fun ask(call: Call, then: (Event) -> Unit) = off(then, if (call is Call.TodayForetold) slow else worker) {
        heard(call.javaClass.simpleName)
        answer(checkNotNull(book), call)
    }

    private fun opened(person: String, act: () -> FieldBook): Opened = try {
        heard("Open")
        book = act().also { it.writeAs(person) }
        Opened.Ready
    } catch (wrong: CoreException) {
        Opened.Trouble(wrong)
    }

    private fun <T> off(then: (T) -> Unit, worker: ExecutorService = this.worker, act: () -> T) {
        worker.execute {
            val came = act()
            main.post { then(came) }
        }
    }
}
