#include "http/inner.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ALIVE_MS = 15000, LINE_BYTES = 128 };

/* One page that listens. Between news its connection sleeps. */
struct dw_stream {
    dw_stream *next, **link;
    dw_server *server;
    struct MHD_Connection *connection;
    uint64_t seen; /* news before this one have been sent */
    bool asleep, alive_due, over;
    char line[LINE_BYTES]; /* being sent */
    size_t line_bytes, line_sent;
};

static void rouse(dw_stream *stream)
{
    if (!stream->asleep)
        return;
    stream->asleep = false;
    MHD_resume_connection(stream->connection);
}

static uint64_t newest(dw_mail *mail)
{
    pthread_mutex_lock(&mail->lock);
    uint64_t count = mail->news_count;
    pthread_mutex_unlock(&mail->lock);
    return count;
}

void dw_http__events_tell(dw_server *server, int64_t steady_ms)
{
    uint64_t count = newest(&server->mail);
    bool alive = steady_ms - server->alive_ms >= ALIVE_MS;
    if (count == server->told && !alive)
        return;
    for (dw_stream *stream = server->streams; stream; stream = stream->next) {
        stream->alive_due = stream->alive_due || alive;
        rouse(stream);
    }
    server->told = count;
    if (alive)
        server->alive_ms = steady_ms;
}

void dw_http__events_close(dw_server *server)
{
    for (dw_stream *s = server->streams; s; s = s->next) {
        s->over = true;
        rouse(s);
    }
}

/* Is there news for this listener? One that fell too far behind hears that
 * anything may have changed: an empty name. */
static bool next_news(dw_stream *stream, char op[DW_HTTP_NEWS_BYTES])
{
    dw_mail *mail = &stream->server->mail;
    pthread_mutex_lock(&mail->lock);
    bool news = stream->seen < mail->news_count;
    op[0] = '\0';
    if (mail->news_count - stream->seen > DW_HTTP_NEWS)
        stream->seen = mail->news_count;
    else if (news)
        memcpy(op, mail->news[stream->seen++ % DW_HTTP_NEWS],
               DW_HTTP_NEWS_BYTES);
    pthread_mutex_unlock(&mail->lock);
    return news;
}

/* The next line for this listener; of no bytes when there is nothing to say. */
static void next_line(dw_stream *stream)
{
    char op[DW_HTTP_NEWS_BYTES];
    int n = 0;
    if (next_news(stream, op))
        n = snprintf(stream->line, LINE_BYTES,
                     "event: changed\ndata: {\"op\":\"%s\"}\n\n", op);
    else if (stream->alive_due)
        n = snprintf(stream->line, LINE_BYTES, ": here\n\n");
    stream->alive_due = false;
    stream->line_bytes = (size_t)n;
    stream->line_sent = 0;
}

static ssize_t read_stream(void *memory, uint64_t position, char *out,
                           size_t room)
{
    (void)position;
    dw_stream *stream = memory;
    if (stream->over)
        return MHD_CONTENT_READER_END_OF_STREAM;
    if (stream->line_sent == stream->line_bytes)
        next_line(stream);
    if (stream->line_bytes == 0) {
        stream->asleep = true;
        MHD_suspend_connection(stream->connection);
        return 0;
    }
    size_t n = stream->line_bytes - stream->line_sent;
    if (n > room)
        n = room;
    memcpy(out, stream->line + stream->line_sent, n);
    stream->line_sent += n;
    return (ssize_t)n;
}

static void end_stream(void *memory)
{
    dw_stream *stream = memory;
    *stream->link = stream->next;
    if (stream->next)
        stream->next->link = stream->link;
    free(stream);
}

static dw_stream *new_stream(dw_request *request)
{
    dw_server *server = request->server;
    dw_stream *stream = calloc(1, sizeof *stream);
    if (!stream)
        return NULL;
    stream->server = server;
    stream->connection = request->connection;
    stream->seen = newest(&server->mail);
    stream->over = atomic_load(&server->stopping);
    stream->next = server->streams;
    stream->link = &server->streams;
    if (stream->next)
        stream->next->link = &stream->next;
    server->streams = stream;
    /* The browser comes back after 3 s when the line is lost. */
    stream->line_bytes =
        (size_t)snprintf(stream->line, LINE_BYTES, "retry: 3000\n\n");
    return stream;
}

enum MHD_Result dw_http__events(dw_request *request)
{
    dw_stream *stream = new_stream(request);
    if (!stream)
        return MHD_NO;
    dw_http__allow(request, INT64_MAX);
    dw_reply reply = {.status = MHD_HTTP_OK, .type = "text/event-stream"};
    return dw_http__send_made(
        request, &reply,
        MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, 1024, read_stream,
                                          stream, end_stream));
}
