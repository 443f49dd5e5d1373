package statement

// kernelWork is how much of the kernel's counted work is one unit of ours.
const kernelWork = 4
