namespace PupilBridge.Ports.Native;

/// <summary>Numbers of the Linux interface (asm-generic: x64 and arm64).</summary>
internal static class LinuxNumbers
{
    internal const int NotFound = 2; // ENOENT
    internal const int Interrupted = 4; // EINTR
    internal const int InputOutput = 5; // EIO
    internal const int NoDeviceOrAddress = 6; // ENXIO
    internal const int TryAgain = 11; // EAGAIN
    internal const int AccessDenied = 13; // EACCES
    internal const int DeviceBusy = 16; // EBUSY
    internal const int NoDevice = 19; // ENODEV
    internal const int NotADirectory = 20; // ENOTDIR
    internal const int IsADirectory = 21; // EISDIR
    internal const int InvalidArgument = 22; // EINVAL
    internal const int NotATerminal = 25; // ENOTTY
    internal const int NotPermitted = 1; // EPERM
    internal const int TooManyLinks = 40; // ELOOP

    internal const int OpenReadWrite = 0x2;
    internal const int OpenNoControllingTerminal = 0x100;
    internal const int OpenNonBlocking = 0x800;
    internal const int OpenCloseOnExec = 0x80000;
    internal const int OpenTerminal = OpenReadWrite | OpenNoControllingTerminal | OpenNonBlocking | OpenCloseOnExec;

    internal const short PollIn = 0x1;
    internal const short PollOut = 0x4;
    internal const short PollError = 0x8;
    internal const short PollHangUp = 0x10;
    internal const short PollInvalid = 0x20;
    internal const short PollGone = PollError | PollHangUp | PollInvalid;

    internal const int LockExclusiveNonBlocking = 2 | 4;
    internal const uint WatchOpen = 0x20; // IN_OPEN

    internal const nuint SetExclusive = 0x540C; // TIOCEXCL
    internal const nuint ClearExclusive = 0x540D; // TIOCNXCL
    internal const nuint OutputQueued = 0x5411; // TIOCOUTQ
    internal const nuint RaiseModemLines = 0x5416; // TIOCMBIS
    internal const int DataTerminalReady = 0x2;
    internal const int RequestToSend = 0x4;

    internal const int FlushInput = 0;
    internal const int FlushOutput = 1;
    internal const int FlushBoth = 2;
    internal const int SetNow = 0;
}
