package kerfbook.field.platform

import kerfbook.core.Clock
import kerfbook.core.Now
import java.time.Instant
import java.time.LocalDate
import java.time.ZoneId

/** The phone's clock and calendar. */
class PhoneClock : Clock {
    override fun now(): Now {
        val now = Instant.now()
        val day = LocalDate.from(now.atZone(ZoneId.systemDefault())).toEpochDay()
        return Now(wallMs = now.toEpochMilli(), day = day.toInt())
    }
}
