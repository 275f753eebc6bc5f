/* The real boundary with a fault on demand: a file whose name holds one of four phrases ends, stalls or bloats the process that opens
   it, or prints where only answers belong. Every other file goes through unchanged. For tests only. */

#define leafstop_raw_open sound_open
#include "../../../src/Leafstop.Raw/Native/leafstop_raw.c"
#undef leafstop_raw_open

EXPORT void *leafstop_raw_open(const char *utf8_path, int32_t memory_limit_mb, int32_t *error)
{
    if (strstr(utf8_path, "ends its decoder"))
        abort();
    if (strstr(utf8_path, "stalls its decoder"))
        for (;;)
            sleep(1);
    if (strstr(utf8_path, "bloats its decoder")) {
        enum { BLOCK = 64 << 20, BLOCKS = 48 };
        for (int i = 0; i < BLOCKS; i++) {
            char *block = malloc(BLOCK);
            if (block)
                memset(block, 1, BLOCK);
        }
        for (;;)
            sleep(1);
    }
    if (strstr(utf8_path, "makes its decoder talk")) {
        puts("not an answer");
        fflush(stdout);
        (void)!write(1, "{\"kind\":\"done\"}\n", 16);
    }
    return sound_open(utf8_path, memory_limit_mb, error);
}
