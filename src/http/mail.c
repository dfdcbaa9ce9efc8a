#include "http/inner.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/eventfd.h>
#include <unistd.h>

dw_status dw_http__mail_open(dw_mail *mail, dw_err *err)
{
    pthread_mutex_init(&mail->lock, NULL);
    mail->bell = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
    if (mail->bell < 0)
        return dw_fail(err, DW_E_IO, "listen", strerror(errno));
    return DW_OK;
}

/* The caller holds the lock: so nobody still rings when the server, having read
 * its last mail, closes the bell. */
static void ring(dw_mail *mail)
{
    uint64_t one = 1;
    if (mail->rung)
        return;
    mail->rung = true;
    while (write(mail->bell, &one, sizeof one) < 0 && errno == EINTR)
        continue;
}

void dw_http__mail_ring(dw_mail *mail)
{
    pthread_mutex_lock(&mail->lock);
    ring(mail);
    pthread_mutex_unlock(&mail->lock);
}

void dw_http__wake(dw_request *request)
{
    dw_mail *mail = &request->server->mail;
    pthread_mutex_lock(&mail->lock);
    request->next_awake = mail->awake;
    mail->awake = request;
    ring(mail);
    pthread_mutex_unlock(&mail->lock);
}

void dw_http__events_changed(void *owner, const char *op)
{
    dw_mail *mail = &((dw_server *)owner)->mail;
    pthread_mutex_lock(&mail->lock);
    snprintf(mail->news[mail->news_count++ % DW_HTTP_NEWS], DW_HTTP_NEWS_BYTES,
             "%s", op);
    ring(mail);
    pthread_mutex_unlock(&mail->lock);
}

void dw_http__mail_read(dw_mail *mail)
{
    uint64_t times;
    pthread_mutex_lock(&mail->lock);
    if (mail->rung && read(mail->bell, &times, sizeof times) == sizeof times)
        mail->rung = false;
    dw_request *request = mail->awake;
    mail->awake = NULL;
    pthread_mutex_unlock(&mail->lock);
    while (request) {
        dw_request *next = request->next_awake;
        MHD_resume_connection(request->connection);
        request = next;
    }
}

void dw_http__mail_close(dw_mail *mail)
{
    if (mail->bell >= 0)
        close(mail->bell);
    pthread_mutex_destroy(&mail->lock);
}
