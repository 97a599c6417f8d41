package kerfbook.field.platform

import android.content.Context
import android.security.keystore.KeyGenParameterSpec
import android.security.keystore.KeyProperties
import kerfbook.core.CoreException
import kerfbook.core.KeyStore
import java.io.File
import java.io.IOException
import java.security.GeneralSecurityException
import javax.crypto.Cipher
import javax.crypto.KeyGenerator
import javax.crypto.SecretKey
import javax.crypto.spec.GCMParameterSpec

/** The device's secret in the app's own folder, wrapped by a key that never leaves the platform's key store. */
class WrappedKey(context: Context) : KeyStore {
    private val file = File(context.noBackupFilesDir, "device.key")

    override fun fetch(): ByteArray? = told {
        if (!file.exists()) return@told null
        val kept = file.readBytes()
        val cipher = Cipher.getInstance(CIPHER)
        cipher.init(Cipher.DECRYPT_MODE, wrapping(), GCMParameterSpec(TAG_BITS, kept, 0, NONCE))
        cipher.doFinal(kept, NONCE, kept.size - NONCE)
    }

    override fun keep(secret: ByteArray) {
        told {
            val cipher = Cipher.getInstance(CIPHER)
            cipher.init(Cipher.ENCRYPT_MODE, wrapping())
            // Whole or not at all: a half-written key would lock the book.
            val unfinished = File(file.path + ".unfinished")
            unfinished.outputStream().use {
                it.write(cipher.iv + cipher.doFinal(secret))
                it.fd.sync()
            }
            if (!unfinished.renameTo(file)) throw IOException("${file.name} cannot be written")
        }
    }

    private fun wrapping(): SecretKey {
        val keys = java.security.KeyStore.getInstance(STORE)
        keys.load(null)
        (keys.getKey(NAME, null) as SecretKey?)?.let { return it }
        val generator = KeyGenerator.getInstance(KeyProperties.KEY_ALGORITHM_AES, STORE)
        generator.init(
            KeyGenParameterSpec.Builder(NAME, KeyProperties.PURPOSE_ENCRYPT or KeyProperties.PURPOSE_DECRYPT)
                .setBlockModes(KeyProperties.BLOCK_MODE_GCM)
                .setEncryptionPaddings(KeyProperties.ENCRYPTION_PADDING_NONE)
                .build(),
        )
        return generator.generateKey()
    }

    private fun <T> told(act: () -> T): T = try {
        act()
    } catch (wrong: GeneralSecurityException) {
        throw CoreException.Platform(wrong.message ?: wrong.javaClass.simpleName)
    } catch (wrong: IOException) {
        throw CoreException.Platform(wrong.message ?: wrong.javaClass.simpleName)
    }

    private companion object {
        const val STORE = "AndroidKeyStore"
        const val NAME = "device"
        const val CIPHER = "AES/GCM/NoPadding"
        const val NONCE = 12
        const val TAG_BITS = 128
    }
}
