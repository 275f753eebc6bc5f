/* A plain C boundary over LibRaw (0.20 or later): open a file, ask what it says, unpack it, read its samples where they lie.

   Everything that crosses the boundary has a fixed width. The caller states the size of its facts structure and is refused when
   it differs from ours, so a structure that was changed on one side only can not be misread. Nothing here writes to a file. */

#include <libraw/libraw.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <stdio.h>
#include <time.h>
#if defined(__linux__)
#include <malloc.h>
#endif

#if defined(_WIN32)
#include <io.h>
#define EXPORT __declspec(dllexport)
#define dup _dup
#define dup2 _dup2
#define leave_now _exit
#else
#include <unistd.h>
#define EXPORT __attribute__((visibility("default")))
#define leave_now _exit
#endif

#if LIBRAW_MAJOR_VERSION == 0 && LIBRAW_MINOR_VERSION < 20
#error "LibRaw 0.20 or later is needed (Debian package libraw-dev)"
#endif

#define ABI_VERSION 3
#define REFUSED_STRUCT_SIZE (-1000)
#define BLACK_PATTERN_LIMIT 256
#define CELL_LIMIT 64
#define KEPT_BYTES (256 * 1024 * 1024)

/* What the samples are laid out as. */
enum { LAYOUT_NONE = 0, LAYOUT_ONE_SAMPLE = 1, LAYOUT_SEVERAL_SAMPLES = 2, LAYOUT_FLOATING = 3 };

typedef struct {
    uint32_t struct_size;          /* in: the caller's size of this structure */
    int32_t layout;                /* LAYOUT_NONE until unpacked */
    int32_t raw_width, raw_height; /* whole frame, borders included */
    int32_t width, height;         /* active area */
    int32_t left, top;             /* where the active area starts */
    int32_t pitch_bytes;           /* from one row to the next; 0 until unpacked */
    int32_t masks[8][4];           /* shielded rectangles: top, left, bottom, right in raw coordinates; bottom 0 = unused */
    int32_t colours;               /* colours that the library counts */
    int32_t cell_rows, cell_columns; /* repeating colour cell, from the top left of the active area; 0 = not a mosaic that repeats simply */
    int32_t slanted;               /* 1: the mosaic is turned by 45 degrees; known once unpacked */
    uint8_t cell[CELL_LIMIT];      /* row by row, index into letters */
    char letters[8];
    uint32_t black_common;         /* the library's whole numbers: common + of the colour + of the site */
    uint32_t black_of_colour[4];
    int32_t black_rows, black_columns;
    uint32_t black_pattern[BLACK_PATTERN_LIMIT];
    uint32_t maximum;              /* the library's largest value; for some formats known only once unpacked */
    uint32_t is_dng;
    uint32_t is_layered;           /* three layers of photosites above one another */
    int32_t loses_by_setting;      /* 1: the maker notes say that the compression loses */
    float iso, shutter_seconds, f_number, focal_mm;
    float as_shot[3];              /* the camera's own factors on red, green and blue for its white balance; 0 = not stated */
    float xyz_to_camera[9];        /* XYZ to red, green and blue of the camera under D65, row by row; all 0 = not known */
    int32_t clock[6];              /* camera clock: year, month, day, hour, minute, second; year 0 = not stated */
    char make[64], model[64], body_number[64], lens[128], decoder[64];
} leafstop_raw_facts;

typedef struct {
    libraw_data_t *library;
    int32_t data_errors;
    int32_t clock_is_universal;
} opened_file;

EXPORT uint32_t leafstop_raw_abi(void) { return ABI_VERSION; }
EXPORT uint32_t leafstop_raw_facts_size(void) { return (uint32_t)sizeof(leafstop_raw_facts); }
EXPORT const char *leafstop_raw_library_version(void) { return libraw_version(); }

/* LibRaw calls this for the first damage of a file only: the count says that there was damage, not how much. */
static void note_damage(void *context, const char *file, const int offset)
{
    (void)file;
    (void)offset;
    if (context)
        ++((opened_file *)context)->data_errors;
}

/* One family of containers stores the camera clock as seconds that were never meant to have a zone; all others are text that
   LibRaw pushed through mktime, which must be undone with the same zone rules. */
static int32_t stores_plain_seconds(const char *path)
{
    char head[10] = { 0 };
    FILE *file = fopen(path, "rb");
    if (!file)
        return 0;
    size_t got = fread(head, 1, sizeof head, file);
    fclose(file);
    return got == sizeof head && !memcmp(head + 6, "HEAP", 4);
}

EXPORT void *leafstop_raw_open(const char *utf8_path, int32_t memory_limit_mb, int32_t *error)
{
    opened_file *opened = calloc(1, sizeof *opened);
    libraw_data_t *library = opened ? libraw_init(LIBRAW_OPTIONS_NONE) : NULL;
    if (!library) {
        free(opened);
        *error = LIBRAW_UNSUFFICIENT_MEMORY;
        return NULL;
    }
    opened->library = library;
    libraw_set_dataerror_handler(library, note_damage, opened);
    /* Floating-point samples stay what they are, so that they can be refused instead of being rescaled. */
#if LIBRAW_MAJOR_VERSION == 0 && LIBRAW_MINOR_VERSION == 20
    library->params.max_raw_memory_mb = (unsigned)memory_limit_mb;
    library->params.raw_processing_options &= ~(unsigned)LIBRAW_PROCESSING_CONVERTFLOAT_TO_INT;
    library->params.use_rawspeed = 0;
    library->params.use_dngsdk = 0;
#else
    library->rawparams.max_raw_memory_mb = (unsigned)memory_limit_mb;
    library->rawparams.options &= ~(unsigned)LIBRAW_RAWOPTIONS_CONVERTFLOAT_TO_INT;
    library->rawparams.use_rawspeed = 0;
    library->rawparams.use_dngsdk = 0;
#endif
    *error = libraw_open_file(library, utf8_path);
    if (*error) {
        libraw_close(library);
        free(opened);
        return NULL;
    }
    opened->clock_is_universal = stores_plain_seconds(utf8_path);
    return opened;
}

EXPORT int32_t leafstop_raw_unpack(void *handle) { return libraw_unpack(((opened_file *)handle)->library); }

EXPORT int32_t leafstop_raw_data_errors(void *handle) { return ((opened_file *)handle)->data_errors; }

/* Into LibRaw's own buffer, valid until close; NULL when the frame is not one 16-bit sample a pixel. */
EXPORT const uint16_t *leafstop_raw_samples(void *handle) { return ((opened_file *)handle)->library->rawdata.raw_image; }

EXPORT void leafstop_raw_close(void *handle)
{
    if (!handle)
        return;
    libraw_close(((opened_file *)handle)->library);
    free(handle);
}

static void copy_text(char *to, size_t size, const char *from)
{
    size_t length = from ? strnlen(from, size - 1) : 0;
    memcpy(to, from ? from : "", length);
    to[length] = 0;
}

static void describe_cell(leafstop_raw_facts *facts, const libraw_iparams_t *description)
{
    if (description->filters == 9) {
        facts->cell_rows = facts->cell_columns = 6;
        for (int row = 0; row < 6; row++)
            for (int column = 0; column < 6; column++)
                facts->cell[row * 6 + column] = (uint8_t)description->xtrans[row][column];
    } else if (description->filters > 999) {
        /* Two bits a site, eight rows of two columns; the shortest repeating height is the cell's. */
        uint8_t sites[8][2];
        int rows = 2;
        for (int row = 0; row < 8; row++)
            for (int column = 0; column < 2; column++)
                sites[row][column] = (uint8_t)(description->filters >> ((row << 1 | column) << 1) & 3);
        for (; rows < 8; rows <<= 1) {
            int repeats = 1;
            for (int row = rows; row < 8 && repeats; row++)
                repeats = !memcmp(sites[row], sites[row % rows], 2);
            if (repeats)
                break;
        }
        facts->cell_rows = rows;
        facts->cell_columns = 2;
        memcpy(facts->cell, sites, (size_t)rows * 2);
    } else if (description->filters == 0 && description->colors == 1) {
        facts->cell_rows = facts->cell_columns = 1;
    }
}

static void describe_black(leafstop_raw_facts *facts, const libraw_colordata_t *colour)
{
    facts->black_common = colour->black;
    for (int i = 0; i < 4; i++)
        facts->black_of_colour[i] = colour->cblack[i];
    uint64_t sites = (uint64_t)colour->cblack[4] * colour->cblack[5];
    if (sites > 0 && sites <= BLACK_PATTERN_LIMIT) {
        facts->black_rows = (int32_t)colour->cblack[4];
        facts->black_columns = (int32_t)colour->cblack[5];
        for (uint64_t i = 0; i < sites; i++)
            facts->black_pattern[i] = colour->cblack[6 + i];
    }
}

static void describe_clock(leafstop_raw_facts *facts, time_t seconds, int32_t universal)
{
    struct tm fields;
    if (seconds <= 0)
        return;
#if defined(_WIN32)
    if (universal ? gmtime_s(&fields, &seconds) : localtime_s(&fields, &seconds))
        return;
#else
    if (!(universal ? gmtime_r(&seconds, &fields) : localtime_r(&seconds, &fields)))
        return;
#endif
    facts->clock[0] = fields.tm_year + 1900;
    facts->clock[1] = fields.tm_mon + 1;
    facts->clock[2] = fields.tm_mday;
    facts->clock[3] = fields.tm_hour;
    facts->clock[4] = fields.tm_min;
    facts->clock[5] = fields.tm_sec;
}

static void describe_colour(leafstop_raw_facts *facts, const libraw_colordata_t *colour)
{
    for (int i = 0; i < 3; i++) {
        facts->as_shot[i] = colour->cam_mul[i];
        for (int j = 0; j < 3; j++)
            facts->xyz_to_camera[3 * i + j] = colour->cam_xyz[i][j];
    }
}

EXPORT int32_t leafstop_raw_describe(void *handle, leafstop_raw_facts *facts)
{
    const opened_file *opened = handle;
    libraw_data_t *library = opened->library;
    if (facts->struct_size != sizeof *facts)
        return REFUSED_STRUCT_SIZE;
    memset(facts, 0, sizeof *facts);
    facts->struct_size = sizeof *facts;

    /* Once unpacked, the copies in rawdata are the ones that later processing can not change. */
    const libraw_rawdata_t *raw = &library->rawdata;
    int unpacked = raw->raw_alloc != NULL;
    const libraw_image_sizes_t *sizes = unpacked ? &raw->sizes : &library->sizes;
    const libraw_iparams_t *description = unpacked ? &raw->iparams : &library->idata;
    const libraw_colordata_t *colour = unpacked ? &raw->color : &library->color;

    facts->layout = !unpacked ? LAYOUT_NONE
        : raw->raw_image ? LAYOUT_ONE_SAMPLE
        : raw->float_image || raw->float3_image || raw->float4_image ? LAYOUT_FLOATING
        : LAYOUT_SEVERAL_SAMPLES;
    facts->raw_width = sizes->raw_width;
    facts->raw_height = sizes->raw_height;
    facts->width = sizes->width;
    facts->height = sizes->height;
    facts->left = sizes->left_margin;
    facts->top = sizes->top_margin;
    facts->pitch_bytes = unpacked ? (int32_t)sizes->raw_pitch : 0;
    for (int i = 0; i < 8; i++)
        for (int side = 0; side < 4; side++)
            facts->masks[i][side] = sizes->mask[i][side];
    facts->colours = description->colors;
    facts->slanted = unpacked && raw->ioparams.fuji_width ? 1 : 0;
    memcpy(facts->letters, description->cdesc, 4);
    describe_cell(facts, description);
    describe_black(facts, colour);
    describe_colour(facts, colour);
    facts->maximum = colour->maximum;
    facts->is_dng = description->dng_version != 0;
    facts->is_layered = description->is_foveon;
    /* 1 and 4 are the two lossy settings of that maker note. */
    facts->loses_by_setting = library->makernotes.nikon.NEFCompression == 1 || library->makernotes.nikon.NEFCompression == 4;
    facts->iso = library->other.iso_speed;
    facts->shutter_seconds = library->other.shutter;
    facts->f_number = library->other.aperture;
    facts->focal_mm = library->other.focal_len;
    describe_clock(facts, library->other.timestamp, opened->clock_is_universal);
    copy_text(facts->make, sizeof facts->make, description->make);
    copy_text(facts->model, sizeof facts->model, description->model);
    copy_text(facts->body_number, sizeof facts->body_number, library->shootinginfo.BodySerial);
    copy_text(facts->lens, sizeof facts->lens, library->lens.Lens[0] ? library->lens.Lens : library->lens.makernotes.Lens);
    copy_text(facts->decoder, sizeof facts->decoder, libraw_unpack_function_name(library));
    return 0;
}

/* Keeps standard output for the caller alone: whatever the library prints from now on goes to standard error.
   Returns a descriptor of the real standard output, or -1. */
EXPORT int32_t leafstop_raw_divert_stdout(void)
{
    fflush(stdout);
    int kept = dup(1);
    if (kept < 0 || dup2(2, 1) < 0)
        return -1;
    return kept;
}

/* From now on memory that a frame needed stays with the process for the next one, up to KEPT_BYTES: handed back, it would have to be
   cleared page by page again for each frame. Only the GNU library can be asked. */
EXPORT void leafstop_raw_keep_memory(void)
{
#if defined(__GLIBC__)
    mallopt(M_MMAP_THRESHOLD, KEPT_BYTES);
    mallopt(M_TRIM_THRESHOLD, KEPT_BYTES);
#endif
}

/* Ends the process at once, even while another thread is inside a decoder. */
EXPORT void leafstop_raw_leave(int32_t code) { leave_now(code); }
