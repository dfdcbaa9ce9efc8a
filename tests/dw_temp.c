#include "dw_temp.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

void dw_temp_make(dw_temp *temp)
{
    snprintf(temp->folder, sizeof temp->folder, "/tmp/doughwright-XXXXXX");
    if (!mkdtemp(temp->folder)) {
        perror(temp->folder);
        exit(1);
    }
}

const char *dw_temp_path(dw_temp *temp, const char *name)
{
    snprintf(temp->path, sizeof temp->path, "%s/%.60s", temp->folder, name);
    return temp->path;
}

void dw_temp_remove(dw_temp *temp)
{
    DIR *folder = opendir(temp->folder);
    struct dirent *entry;
    while (folder && (entry = readdir(folder)))
        if (entry->d_name[0] != '.')
            unlink(dw_temp_path(temp, entry->d_name));
    if (folder)
        closedir(folder);
    rmdir(temp->folder);
}
