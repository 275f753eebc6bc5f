using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Measurement;

/// <summary>The middle of many values, or any other place, without sorting them all.</summary>
internal static class OrderStatistic
{
    /// <summary>The median: the middle value, or the mean of the two middle ones. The values change their order.</summary>
    /// <param name="values">At least one, none of them NaN.</param>
    public static double Median(Span<double> values)
    {
        int middle = values.Length / 2;
        double upper = At(values, middle);
        if (values.Length % 2 == 1) return upper;
        // All values before the middle are now no larger than it: the other middle one is the largest of them.
        double lower = values[0];
        foreach (double value in values[..middle]) lower = Math.Max(lower, value);
        return (lower + upper) / 2;
    }

    /// <summary>The value that would stand at an index if all were sorted (Hoare 1961, from memory); smaller ones end up before it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static double At(Span<double> values, int index)
    {
        int low = 0, high = values.Length - 1;
        while (low < high)
        {
            double pivot = Middle(values[low], values[(low + high) / 2], values[high]);
            int i = low, j = high;
            while (i <= j)
            {
                while (values[i] < pivot) i++;
                while (values[j] > pivot) j--;
                if (i > j) break;
                (values[i], values[j]) = (values[j], values[i]);
                i++;
                j--;
            }

            if (index <= j) high = j;
            else if (index >= i) low = i;
            else break;
        }

        return values[index];
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Middle(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
