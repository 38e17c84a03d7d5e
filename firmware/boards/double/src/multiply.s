@ Product of two doubles. In: a in r1:r0 and b in r3:r2, the upper word first; out: r1:r0.
@
@ The significands, 2^52 to 2^53 each, are multiplied whole, a's eleven places up: the product's four words then have
@ its first 53 bits in the upper two, or its first 52.
@
@ r4   both exponents, each less one; later the product's, less one
@ lr   the sign, in its upper bit             r12  2046, past which no such exponent is finite

    .section .text.__aeabi_dmul, "ax", %progbits
    .p2align 2
    .global __aeabi_dmul
    .type __aeabi_dmul, %function
    .thumb_func
__aeabi_dmul:
    push    {r4, r5, r6, r7, lr}
    eor     lr, r1, r3
    ubfx    r4, r1, #20, #11
    ubfx    r5, r3, #20, #11
    movw    r12, #2046
    subs    r4, r4, #1              @ of zero and subnormals far past any other, unsigned
    subs    r5, r5, #1
    cmp     r4, r12
    it      lo
    cmplo   r5, r12
    bhs     .Lmul_odd
.Lmul_normal:
    adds    r4, r4, r5
    lsls    r1, r1, #11
    orr     r1, r1, r0, lsr #21
    orr     r1, r1, #0x80000000
    lsls    r0, r0, #11
    bfc     r3, #20, #12
    orr     r3, r3, #0x100000
    umull   r5, r6, r0, r2
    movs    r7, #0
    umlal   r6, r7, r0, r3
    movs    r0, #0
    umlal   r6, r0, r1, r2
    movs    r2, #0
    umlal   r7, r2, r1, r3
    adds    r0, r0, r7
    adc     r1, r2, #0              @ the product: r1, r0, r6, r5
    subw    r4, r4, #1021           @ the bias, once
    tst     r1, #0x100000
    bne     .Lmul_leads
    adds    r6, r6, r6
    adcs    r0, r0, r0
    adcs    r1, r1, r1
    subs    r4, r4, #1
.Lmul_leads:
    cmp     r4, r12
    bhs     .Lmul_past
.Lmul_round:
    lsls    r6, r6, #1              @ carry: a half or more of the last place
    orrs    r6, r6, r5              @ zero: no more than that
    beq     .Lmul_even
    adcs    r0, r0, #0
    adc     r1, r1, r4, lsl #20     @ the leading one makes the exponent whole
.Lmul_sign:
    and     lr, lr, #0x80000000
    orr     r1, r1, lr
    pop     {r4, r5, r6, r7, pc}

.Lmul_even:
    it      cs
    movcs   r6, #1                  @ a half to be rounded to even: the last bit is dropped
    adcs    r0, r0, #0
    adc     r1, r1, r4, lsl #20
    bic     r0, r0, r6
    b       .Lmul_sign

@ The exponent is past the largest or below the least.
.Lmul_past:
    cmp     r4, #0
    bge     .Lmul_infinity
    rsbs    r4, r4, #0
    cmp     r4, #55
    it      hi
    movhi   r4, #55                 @ from there on nothing but a trace is left
.Lmul_lower:
    lsrs    r1, r1, #1
    rrxs    r0, r0
    rrxs    r6, r6
    it      cs
    orrcs   r5, r5, #1
    subs    r4, r4, #1
    bne     .Lmul_lower
    b       .Lmul_round

@ At least one of the two is zero, subnormal, infinite or no number.
.Lmul_odd:
    cmp     r4, r12
    beq     .Lmul_a_infinite
    cmp     r5, r12
    beq     .Lmul_b_infinite
    cmp     r4, #0
    bge     .Lmul_b_tiny
    bic     r1, r1, #0x80000000
    orrs    r6, r1, r0
    beq     .Lmul_zero
    movs    r4, #0
.Lmul_a_up:
    adds    r0, r0, r0
    adcs    r1, r1, r1
    subs    r4, r4, #1
    tst     r1, #0x100000
    beq     .Lmul_a_up
    cmp     r5, #0
    bge     .Lmul_normal
.Lmul_b_tiny:
    bic     r3, r3, #0x80000000
    orrs    r6, r3, r2
    beq     .Lmul_zero
    movs    r5, #0
.Lmul_b_up:
    adds    r2, r2, r2
    adcs    r3, r3, r3
    subs    r5, r5, #1
    tst     r3, #0x100000
    beq     .Lmul_b_up
    b       .Lmul_normal

.Lmul_zero:
    movs    r0, #0
    movs    r1, #0
    b       .Lmul_sign

.Lmul_a_infinite:
    lsls    r6, r1, #12
    orrs    r6, r6, r0
    bne     .Lmul_nan
    lsls    r6, r3, #1
    orrs    r6, r6, r2
    beq     .Lmul_nan               @ infinity times zero
    cmp     r5, r12
    bne     .Lmul_infinity
    @ The other may be infinite or no number; a is infinite, so not zero.
.Lmul_b_infinite:
    lsls    r6, r3, #12
    orrs    r6, r6, r2
    bne     .Lmul_nan
    lsls    r6, r1, #1
    orrs    r6, r6, r0
    beq     .Lmul_nan
.Lmul_infinity:
    movs    r0, #0
    movs    r1, #0
    movt    r1, #0x7FF0
    b       .Lmul_sign

.Lmul_nan:
    movs    r0, #0
    movs    r1, #0
    movt    r1, #0x7FF8
    pop     {r4, r5, r6, r7, pc}
    .size __aeabi_dmul, . - __aeabi_dmul
