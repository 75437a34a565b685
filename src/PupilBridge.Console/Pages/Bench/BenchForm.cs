using System.Globalization;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Bench;

/// <summary>A form of the service bench.</summary>
public abstract class BenchForm : FormPart
{
    /// <summary>The words of the bench.</summary>
    protected static HouseText B => BenchText.Words;

    /// <summary>Whether the caller works at the bench; others only look.</summary>
    protected bool IsTechnician => Desks.May(Roles.Bench);

    /// <summary>A number that was typed with a point; null if nothing was. What is no number is marked as wrong.</summary>
    /// <param name="field">The field.</param>
    protected double? Number(string field)
    {
        if (Optional(field) is not { } typed)
        {
            return null;
        }

        if (TypedNumbers.Read(typed) is { } number)
        {
            return number;
        }

        Wrong[field] = TypedNumbers.WhatIsWrong(typed);
        return null;
    }

    /// <summary>A whole number that was typed; null if nothing was. What is none is marked as wrong.</summary>
    /// <param name="field">The field.</param>
    protected int? Whole(string field)
    {
        if (Optional(field) is not { } typed)
        {
            return null;
        }

        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        Wrong[field] = B.Get("Typed.NoWhole", typed);
        return null;
    }

    /// <summary>A day that was typed; null if nothing was. What is none is marked as wrong.</summary>
    /// <param name="field">The field.</param>
    protected DateOnly? DayOf(string field)
    {
        if (Optional(field) is not { } typed)
        {
            return null;
        }

        var day = HouseTime.Read(typed);
        if (day is null)
        {
            Wrong[field] = T.Get("Form.NoDay", typed);
        }

        return day;
    }
}
