// Loops over lanes are built twice, for AVX2 and for any x86-64, and chosen when the program starts; without fused multiply-add both
// give the same bits. Sanitizers do not get along with that choice being made before they are up, and clang 16 does not flatten clones.
#pragma once

#if defined(__x86_64__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define SAPDRAW_WIDE [[gnu::target_clones("avx2", "default"), gnu::flatten]]
#else
#define SAPDRAW_WIDE
#endif
