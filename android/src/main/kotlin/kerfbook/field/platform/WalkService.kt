package kerfbook.field.platform

import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.app.PendingIntent
import android.app.Service
import android.content.Context
import android.content.Intent
import android.content.pm.ServiceInfo
import android.os.Build
import android.os.IBinder
import kerfbook.field.FieldActivity
import kerfbook.field.R

/** Keeps the process awake while somebody walks with a dark screen, and says so in a notice. It does nothing else. */
class WalkService : Service() {
    override fun onBind(intent: Intent?): IBinder? = null

    override fun onStartCommand(intent: Intent?, flags: Int, startId: Int): Int {
        val channel = NotificationChannel(CHANNEL, getString(R.string.walk_notice), NotificationManager.IMPORTANCE_LOW)
        (getSystemService(NOTIFICATION_SERVICE) as NotificationManager).createNotificationChannel(channel)
        show(notice())
        return START_NOT_STICKY
    }

    @ChecksApi
    private fun show(notice: Notification) {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.Q) {
            startForeground(NOTICE, notice, ServiceInfo.FOREGROUND_SERVICE_TYPE_LOCATION)
        } else {
            startForeground(NOTICE, notice)
        }
    }

    private fun notice(): Notification {
        val open = Intent(this, FieldActivity::class.java).addFlags(Intent.FLAG_ACTIVITY_SINGLE_TOP)
        return Notification.Builder(this, CHANNEL)
            .setSmallIcon(R.drawable.places)
            .setContentTitle(getString(R.string.walk_notice))
            .setContentText(getString(R.string.walk_notice_about))
            .setContentIntent(PendingIntent.getActivity(this, 0, open, PendingIntent.FLAG_IMMUTABLE))
            .setOngoing(true)
            .build()
    }

    companion object {
        private const val CHANNEL = "walk"
        private const val NOTICE = 1

        fun start(context: Context) {
            context.startForegroundService(Intent(context, WalkService::class.java))
        }

        fun stop(context: Context) {
            context.stopService(Intent(context, WalkService::class.java))
        }
    }
}
