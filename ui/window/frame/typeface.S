/* The typeface becomes part of the program: letters are there wherever it runs. */
    .section .rodata
    .global halfsplit_typeface_begin
    .global halfsplit_typeface_end
    .balign 16
halfsplit_typeface_begin:
    .incbin HALFSPLIT_TYPEFACE
halfsplit_typeface_end:
    .byte 0
    .section .note.GNU-stack,"",@progbits
