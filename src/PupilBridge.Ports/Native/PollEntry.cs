using System.Runtime.InteropServices;

namespace PupilBridge.Ports.Native;

/// <summary>One entry of <c>poll</c>: which descriptor, what to wait for, what came.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct PollEntry
{
    internal int Descriptor;
    internal short Wanted;
    internal short Seen;
}
