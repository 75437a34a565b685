using System.Collections.Immutable;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria;

/// <summary>The eyes as findings list them, right before left.</summary>
internal static class Sides
{
    public static readonly ImmutableArray<Eye> Both = [Eye.Right, Eye.Left];
}
