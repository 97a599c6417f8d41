package kerfbook.field

import kerfbook.core.Clock
import kerfbook.core.FieldBook
import kerfbook.core.KeyStore
import kerfbook.core.Measures
import kerfbook.core.NewHolding
import kerfbook.core.Now
import kerfbook.core.Reader
import kerfbook.core.Tongue
import java.io.File
import java.time.LocalDate

/** A key store that lives as long as the test. */
class TestKeys : KeyStore {
    private var kept: ByteArray? = null

    override fun fetch(): ByteArray? = kept

    override fun keep(secret: ByteArray) {
        kept = secret
    }
}

/** A clock that the test sets; it remembers which threads asked. */
class TestClock(var day: LocalDate = LocalDate.of(2026, 4, 15)) : Clock {
    val threads = mutableSetOf<Thread>()

    override fun now(): Now {
        threads += Thread.currentThread()
        val noon = day.toEpochDay() * DAY_MS + DAY_MS / 2
        return Now(noon, day.toEpochDay().toInt())
    }

    private companion object {
        const val DAY_MS = 86_400_000L
    }
}

val ENGLISH = Reader(Tongue.ENGLISH, Measures.METRIC, null, null, null)

/** A folder that the test leaves empty. */
fun <T> inFolder(act: (File) -> T): T {
    val folder = File.createTempFile("kerfbook", "").apply {
        delete()
        mkdirs()
    }
    return try {
        act(folder)
    } finally {
        folder.deleteRecursively()
    }
}

/** A new book with its clock, for tests of presenters. */
fun <T> withBook(clock: TestClock = TestClock(), act: (FieldBook) -> T): T = inFolder { folder ->
    val holding = NewHolding("Low field", "Phone", sells = false, certified = false, latitudeDeg = 45.0)
    FieldBook.found(File(folder, "book").path, holding, TestKeys(), clock, ENGLISH).use(act)
}
