using System;
using System.Collections.Generic;

namespace Lampblack.Cutting;

/// <summary>Takes a block out of a plate, cut by cut, and keeps what is left over in pieces as long as they can be.</summary>
internal sealed class Placing
{
    private readonly Model _model;
    private readonly Queue<string>[] _ids;
    private readonly List<PlacedPiece> _pieces = [];
    private readonly List<EdgeCut> _cuts = [];
    private readonly List<CutBox> _offcuts = [];

    private Placing(Model model, Queue<string>[] ids) => (_model, _ids) = (model, ids);

    /// <summary>A plate and its cuts.</summary>
    /// <param name="model">The task.</param>
    /// <param name="plate">The plate.</param>
    /// <param name="block">What is cut from it.</param>
    /// <param name="ids">The ids that are left of each kind; those that are used are taken away.</param>
    public static CutPlate Of(Model model, Plate plate, Block block, Queue<string>[] ids)
    {
        var placing = new Placing(model, ids);
        placing.Place(block, new(0, 0, plate.Width, plate.Height));
        return new(plate.Stock, [.. placing._pieces], [.. placing._cuts], [.. placing._offcuts]);
    }

    /// <summary>The longest strip that a block leaves of a plate: its longer side, then its shorter one.</summary>
    public static (int Long, int Short) LongestOffcut(Model model, Plate plate, Block block)
    {
        var placing = new Placing(model, []);
        return placing.Longest(plate.Width - block.Wide.Length, plate.Height - block.High.Length, new(0, 0, plate.Width, plate.Height)).Size;
    }

    private void Place(Block block, Room room)
    {
        room = Trim(block, room);
        if (block.Kind >= 0)
        {
            var id = _ids[block.Kind].Dequeue();
            _pieces.Add(new(id, Box(room), block.IsTurned));
            return;
        }

        var (first, second) = (block.First!, block.Second!);
        if (block.IsBeside)
        {
            var left = Share(first.Wide, second.Wide, room.Width);
            CutAt(room, true, left);
            Place(first, room with { Width = left });
            Place(second, room with { X = room.X + left, Width = room.Width - left });
        }
        else
        {
            var low = Share(first.High, second.High, room.Height);
            CutAt(room, false, low);
            Place(first, room with { Height = low });
            Place(second, room with { Y = room.Y + low, Height = room.Height - low });
        }
    }

    /// <summary>How much the first gets; what is more than both need goes to one that can use it.</summary>
    private static int Share(Extent first, Extent second, int room)
    {
        var more = room - first.Length - second.Length;
        return first.Length + (first.IsLoose && !second.IsLoose ? more : second.IsLoose ? 0 : more);
    }

    /// <summary>Cuts off what the block doesn't need, where that is wide enough to be cut off.</summary>
    private Room Trim(Block block, Room room)
    {
        var (right, top) = (Excess(block.Wide, room.Width, block), Excess(block.High, room.Height, block));
        var isUprightFirst = Longest(right, top, room).IsUprightFirst;
        if (isUprightFirst)
        {
            return TrimTop(top, TrimRight(right, room));
        }

        return TrimRight(right, TrimTop(top, room));
    }

    private int Excess(Extent needed, int given, Block block)
    {
        var more = given - needed.Length;

        // A piece has to come to its size; a block may hand what is too narrow to be cut off down to its own blocks.
        return more > 0 && (block.Kind >= 0 || more >= _model.Narrowest) ? more : 0;
    }

    private ((int Long, int Short) Size, bool IsUprightFirst) Longest(int right, int top, Room room)
    {
        var upright = Larger(Side(right, room.Height), Side(room.Width - right, top));
        var level = Larger(Side(room.Width, top), Side(right, room.Height - top));
        return upright.CompareTo(level) >= 0 ? (upright, true) : (level, false);
    }

    private static (int Long, int Short) Larger((int Long, int Short) first, (int Long, int Short) second) => first.CompareTo(second) >= 0 ? first : second;

    /// <summary>A strip that is narrower than the narrowest is not worth keeping.</summary>
    private (int Long, int Short) Side(int width, int height) =>
        Math.Min(width, height) < Math.Max(1, _model.Narrowest) ? (0, 0) : (Math.Max(width, height), Math.Min(width, height));

    private Room TrimRight(int right, Room room)
    {
        if (right == 0)
        {
            return room;
        }

        CutAt(room, true, room.Width - right);
        AddOffcut(new(room.X + room.Width - right, room.Y, right, room.Height));
        return room with { Width = room.Width - right };
    }

    private Room TrimTop(int top, Room room)
    {
        if (top == 0)
        {
            return room;
        }

        CutAt(room, false, room.Height - top);
        AddOffcut(new(room.X, room.Y + room.Height - top, room.Width, top));
        return room with { Height = room.Height - top };
    }

    private void AddOffcut(Room room)
    {
        var box = Box(room);
        if (box.WidthMm > 0 && box.HeightMm > 0)
        {
            _offcuts.Add(box);
        }
    }

    private void CutAt(Room room, bool isUpright, int at) => _cuts.Add(new(Box(room), isUpright, _model.LengthMm(at)));

    private CutBox Box(Room room) => new(_model.Mm(room.X), _model.Mm(room.Y), _model.LengthMm(room.Width), _model.LengthMm(room.Height));

    private readonly record struct Room(int X, int Y, int Width, int Height);
}
