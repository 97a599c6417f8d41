package kerfbook.field.platform

import android.content.ClipData
import android.content.ContentProvider
import android.content.ContentValues
import android.content.Context
import android.content.Intent
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.ParcelFileDescriptor
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException
import java.time.LocalDate

/** Gives the one file that a person hands over to the app that they chose, for reading, and nothing else. */
class HandedOver : ContentProvider() {
    override fun onCreate() = true

    override fun openFile(uri: Uri, mode: String): ParcelFileDescriptor {
        if (mode != "r") throw SecurityException("it can only be read")
        return ParcelFileDescriptor.open(file(uri), ParcelFileDescriptor.MODE_READ_ONLY)
    }

    override fun query(
        uri: Uri,
        columns: Array<String>?,
        where: String?,
        arguments: Array<String>?,
        order: String?,
    ): Cursor {
        val file = file(uri)
        val names = columns ?: arrayOf(OpenableColumns.DISPLAY_NAME, OpenableColumns.SIZE)
        val row = names.map {
            when (it) {
                OpenableColumns.DISPLAY_NAME -> file.name
                OpenableColumns.SIZE -> file.length()
                else -> null
            }
        }
        return MatrixCursor(names, 1).apply { addRow(row) }
    }

    override fun getType(uri: Uri) = TYPE

    override fun insert(uri: Uri, values: ContentValues?): Uri? = throw UnsupportedOperationException(READ_ONLY)

    override fun delete(uri: Uri, where: String?, arguments: Array<String>?): Int =
        throw UnsupportedOperationException(READ_ONLY)

    override fun update(uri: Uri, values: ContentValues?, where: String?, arguments: Array<String>?): Int =
        throw UnsupportedOperationException(READ_ONLY)

    private fun file(uri: Uri): File {
        val name = uri.pathSegments.singleOrNull() ?: throw FileNotFoundException()
        // Only what lies in the folder itself: no name leads out of it.
        return folder(checkNotNull(context)).listFiles().orEmpty().firstOrNull { it.isFile && it.name == name }
            ?: throw FileNotFoundException()
    }

    companion object {
        /** SQLite's registered media type. */
        const val TYPE = "application/vnd.sqlite3"
        private const val AUTHORITY = "kerfbook.field.handed"
        private const val READ_ONLY = "it can only be read"

        private fun folder(context: Context) = File(context.filesDir, "handed")

        /** Where today's copy goes; older ones are gone. */
        fun place(context: Context): File {
            val folder = folder(context).apply { mkdirs() }
            folder.listFiles().orEmpty().forEach { it.delete() }
            return File(folder, "fieldbook-${LocalDate.now()}.kerfbook")
        }

        /** Asks which app is to have the file. */
        fun sharing(file: File): Intent {
            val uri = Uri.Builder().scheme("content").authority(AUTHORITY).appendPath(file.name).build()
            val send = Intent(Intent.ACTION_SEND).setType(TYPE).putExtra(Intent.EXTRA_STREAM, uri)
            send.clipData = ClipData.newRawUri(file.name, uri)
            send.addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION)
            return Intent.createChooser(send, null)
        }
    }
}
