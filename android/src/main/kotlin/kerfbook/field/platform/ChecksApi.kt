package kerfbook.field.platform

/** Calls in here are newer than the oldest Android supported, and each stands behind a check of its version. */
@Retention(AnnotationRetention.BINARY)
@Target(AnnotationTarget.FUNCTION, AnnotationTarget.CLASS)
annotation class ChecksApi
