@ Sum and difference of two doubles. In: a in r1:r0 and b in r3:r2, the upper word first; out: r1:r0.
@
@ The one of larger magnitude stays packed as it came, sign and exponent included; the other's significand is shifted
@ to its place below and added or taken off. While that carries nothing into the exponent and borrows nothing from it,
@ the sum is packed already and only to be rounded.
@
@ r4   exponent of the larger        lr   above zero or zero where the two have one sign, below where they have not
@ r5   how much lower the other's is  r12  what is shifted out below the last place; where that is more than a word,
@                                         its last bit stands for all that follows

    .section .text.__aeabi_dadd, "ax", %progbits
    .p2align 2
    .global __aeabi_dsub
    .type __aeabi_dsub, %function
    .thumb_func
__aeabi_dsub:
    eor     r3, r3, #0x80000000
    .global __aeabi_dadd
    .type __aeabi_dadd, %function
    .thumb_func
__aeabi_dadd:
    push    {r4, r5, r6, lr}
    lsls    r4, r1, #1
    lsls    r5, r3, #1
    cmp     r4, r5
    it      eq
    cmpeq   r0, r2
    bhs     .Ladd_ordered
    mov     r6, r0
    mov     r0, r2
    mov     r2, r6
    mov     r6, r1
    mov     r1, r3
    mov     r3, r6
.Ladd_ordered:
    eor     lr, r1, r3
    ubfx    r4, r1, #20, #11
    ubfx    r5, r3, #20, #11
    cmp     r4, #0x7F0              @ the largest exponents, of which the very largest is looked for elsewhere
    bhs     .Ladd_huge
.Ladd_finite:
    cbz     r5, .Ladd_to_tiny
    subs    r5, r4, r5
    bfc     r3, #20, #12
    orr     r3, r3, #0x100000
.Ladd_align:
    cmp     r5, #32
    bhs     .Ladd_far
    rsb     r6, r5, #32             @ a shift by 32 leaves nothing
    lsl     r12, r2, r6
    lsrs    r2, r2, r5
    lsl     r6, r3, r6
    orrs    r2, r2, r6
    lsrs    r3, r3, r5
.Ladd_aligned:
    cmp     lr, #0
    bmi     .Ladd_take_off
    adds    r0, r0, r2
    adcs    r1, r1, r3
    ubfx    r6, r1, #20, #11
    cmp     r6, r4
    bne     .Ladd_carried
.Ladd_round:
    lsls    r12, r12, #1            @ carry: a half or more of the last place; zero: no more than that
    beq     .Ladd_even
    adcs    r0, r0, #0
    adc     r1, r1, #0
    pop     {r4, r5, r6, pc}

.Ladd_even:
    bcc     .Ladd_done              @ nothing is left over
    adcs    r0, r0, #0
    adc     r1, r1, #0
    bic     r0, r0, #1
.Ladd_done:
    pop     {r4, r5, r6, pc}

.Ladd_to_tiny:
    b       .Ladd_tiny

@ The significand has a bit more: it goes down a place, and the exponent up. Without its exponent the upper word is
@ sign and significand less the leading one, which the exponent's next step stands for.
.Ladd_carried:
    sub     r1, r1, r4, lsl #20
    add     r1, r1, #0x100000
    asrs    r1, r1, #1
    rrxs    r0, r0
    orr     r12, r12, r12, lsl #1   @ the bit about to fall off lives on beside its place
    rrx     r12, r12
    bic     r1, r1, #0x40000000     @ the sign's copy
    add     r1, r1, r4, lsl #20
    movw    r6, #2046
    cmp     r4, r6
    bne     .Ladd_round
    movs    r0, #0
    lsrs    r1, r1, #20             @ sign and the exponent of infinity, its significand gone
    lsls    r1, r1, #20
    pop     {r4, r5, r6, pc}

@ More than a word lower. From 63 places down the other is nothing but a trace.
.Ladd_far:
    cmp     r5, #63
    it      hi
    movhi   r5, #63
    subs    r5, r5, #32
    rsb     r6, r5, #32
    lsl     r12, r2, r6
    lsrs    r2, r2, r5
    cmp     r12, #0
    it      ne
    orrne   r2, r2, #1
    lsl     r12, r3, r6
    orr     r12, r12, r2
    lsr     r2, r3, r5
    movs    r3, #0
    b       .Ladd_aligned

.Ladd_take_off:
    rsbs    r12, r12, #0
    sbcs    r0, r0, r2
    sbcs    r1, r1, r3
    ubfx    r6, r1, #20, #11
    cmp     r6, r4
    beq     .Ladd_round
    @ The leading one is gone; what is left stands in the fraction, and the exponent is one less.
    ubfx    r3, r1, #0, #20
    cbz     r6, .Ladd_flat
    tst     r1, #0x80000
    beq     .Ladd_deep
    @ The next bit leads: the fraction once more on top of itself, less what it then leads with.
    adds    r12, r12, r12
    adcs    r0, r0, r0
    adcs    r1, r1, r3
    sub     r1, r1, #0x100000
    b       .Ladd_round

@ No exponent is left, so nothing is to be rounded; nothing at all is plus zero.
.Ladd_flat:
    orrs    r3, r3, r0
    it      eq
    moveq   r1, #0
    pop     {r4, r5, r6, pc}

@ Many leading bits are gone. Then the two were at most one place apart, and nothing is to be rounded.
.Ladd_deep:
    and     lr, r1, #0x80000000
    adds    r12, r12, r12
    adcs    r0, r0, r0
    adcs    r3, r3, r3
    orrs    r1, r3, r0
    beq     .Ladd_done              @ nothing is left: plus zero, in both words
    clz     r5, r3
    cmp     r3, #0
    itt     eq
    clzeq   r5, r0
    addeq   r5, r5, #32
    subs    r5, r5, #11             @ places up to where a leading one stands
    subs    r6, r6, #1
    cmp     r5, r6
    it      hi
    movhi   r5, r6                  @ but not past the least exponent
    subs    r6, r6, r5
    subs    r2, r5, #32
    bhs     .Ladd_word_up
    rsb     r2, r5, #32
    lsls    r3, r3, r5
    lsr     r2, r0, r2
    orrs    r3, r3, r2
    lsls    r0, r0, r5
    b       .Ladd_pack
.Ladd_word_up:
    lsl     r3, r0, r2
    movs    r0, #0
.Ladd_pack:
    add     r1, r3, r6, lsl #20
    orr     r1, r1, lr
    pop     {r4, r5, r6, pc}

@ The other is zero or subnormal.
.Ladd_tiny:
    lsls    r5, r3, #1
    orrs    r5, r5, r2
    beq     .Ladd_zero
    bic     r3, r3, #0x80000000
    subs    r5, r4, #1              @ its exponent counts as one
    bhs     .Ladd_align
    @ Both are subnormal: whole numbers of the least step.
    cmp     lr, #0
    bmi     .Ladd_least
    adds    r0, r0, r2
    adcs    r1, r1, r3
    pop     {r4, r5, r6, pc}
.Ladd_least:
    subs    r0, r0, r2
    sbcs    r1, r1, r3
    ubfx    r3, r1, #0, #20
    b       .Ladd_flat

@ Plus or minus zero is added: only zeros of two signs make another.
.Ladd_zero:
    lsls    r5, r1, #1
    orrs    r5, r5, r0
    bne     .Ladd_done
    cmp     lr, #0
    it      mi
    movmi   r1, #0
    pop     {r4, r5, r6, pc}

.Ladd_huge:
    movw    r6, #2047
    cmp     r4, r6
    bne     .Ladd_finite
    lsls    r6, r1, #12
    orrs    r6, r6, r0
    bne     .Ladd_nan
    cmp     r5, r4
    bne     .Ladd_done              @ infinity and what is finite
    cmp     lr, #0
    bpl     .Ladd_done              @ infinities of one sign
.Ladd_nan:
    movs    r0, #0
    movs    r1, #0
    movt    r1, #0x7FF8
    pop     {r4, r5, r6, pc}
    .size __aeabi_dadd, . - __aeabi_dadd
